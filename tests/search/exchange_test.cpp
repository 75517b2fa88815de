#include <catch2/catch.hpp>
#include <random>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/search/searcher.hpp"

#include "oracles/search_naive.hpp"

using namespace kairos;

namespace {

search::Score value_of(const char* fen, const char* move) {
  const auto p = rules::parse_fen(fen);
  REQUIRE(p);
  const auto m = rules::parse_san(*p, move);
  REQUIRE(m);
  return search::exchange_value(*p, *m);
}

}  // namespace

TEST_CASE("an exchange is worth what both sides would go on for", "[exchange]") {
  struct Case {
    const char* fen;
    const char* move;
    int value;
    const char* why;  // by counting with the nominal values 1 3 3 5 9 (common practice)
  };
  const Case cases[] = {
      {"4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1", "exd5", 100, "a free pawn"},
      {"4k3/8/4p3/3p4/4P3/8/8/4K3 w - - 0 1", "exd5", 0, "pawn for pawn"},
      {"4k3/8/4p3/3p4/8/2N5/8/4K3 w - - 0 1", "Nxd5", -200, "a knight for a pawn"},
      {"3rk3/8/8/3p4/8/8/3R4/3RK3 w - - 0 1", "Rxd5", 100, "the rook behind holds"},
      {"3rk3/3r4/8/3p4/8/8/3R4/3RK3 w - - 0 1", "Rxd5", -400, "as many guards as takers"},
      {"4k3/8/8/8/8/2q5/1P6/4K3 w - - 0 1", "bxc3", 900, "a free queen"},
      {"4k3/8/8/3n4/8/8/8/3QK3 w - - 0 1", "Qxd5", 300, "a free knight"},
      {"4k3/8/2p5/3n4/8/8/8/3QK3 w - - 0 1", "Qxd5", -600, "a guarded knight"},
      {"4k3/P7/8/8/8/8/8/4K3 w - - 0 1", "a8=Q+", 800, "a pawn becomes a queen"},
      {"1r2k3/P7/8/8/8/8/8/4K3 w - - 0 1", "axb8=Q+", 1300, "and takes a rook"},
      {"4k3/8/8/8/8/8/8/R3K2R w KQ - 0 1", "O-O", 0, "castling meets nothing"},
      {"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1", "exd6", 100, "en passant"},
      {"4k3/2p5/8/3pP3/8/8/8/4K3 w - d6 0 1", "exd6", 0, "en passant, taken back"},
      {"4k3/4n3/8/3p4/8/2N5/8/4R1K1 w - - 0 1", "Nxd5", 100, "the guard is pinned"},
      {"8/8/3k4/3p4/8/2N5/8/3RK3 w - - 0 1", "Nxd5", 100, "a king may not take what is held"},
      {"8/8/3k4/3p4/8/2N5/8/4K3 w - - 0 1", "Nxd5", -200, "a king takes what is free"},
  };
  for (const Case& c : cases) {
    INFO(c.why << ": " << c.fen << ' ' << c.move);
    CHECK(value_of(c.fen, c.move) == c.value);
  }
}

TEST_CASE("exchanges agree with counting on the board man by man", "[exchange]") {
  constexpr unsigned seed = 20240611;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  int compared = 0;
  for (int game = 0; game < 300; ++game) {
    const int plies = 10 + static_cast<int>(random() % 70);
    const auto p = oracles::random_play(random, rules::Position::start(), plies);
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    for (const rules::Move m : moves) {
      const int fast = search::exchange_value(p, m);
      const int slow = oracles::naive_exchange(p, m);
      if (fast != slow) {
        INFO(rules::to_fen(p) << ' ' << rules::to_san(p, m));
        CHECK(fast == slow);
      }
      ++compared;
    }
  }
  CHECK(compared > 5000);
}
