#include "kairos/search/mate.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/rules/setup.hpp"

#include "oracles/search_naive.hpp"
#include "support/games.hpp"

using namespace kairos;
using support::position;

namespace {

// The line must be legal, of the length claimed, and end in mate.
void check_line(const rules::Position& start, const search::MateProof& proof) {
  CHECK(proof.line.size() == static_cast<std::size_t>(2 * proof.moves - 1));
  rules::Position p = start;
  for (const rules::Move m : proof.line) {
    REQUIRE(rules::is_legal(p, m));
    p.play(m);
  }
  CHECK(rules::is_checkmate(p));
}

}  // namespace

TEST_CASE("published mates are proven at their exact length", "[mate]") {
  struct Case {
    const char* fen;
    int moves;
    const char* key;
    const char* source;
  };
  const Case cases[] = {
      {"4kb1r/p2n1ppp/4q3/4p1B1/4P3/1Q6/PPP2PPP/2KR4 w k - 0 16", 2, "Qb8+",
       "facts.md M01, Opera game 1858"},
      {"rnb1kb1r/pp3ppp/2p5/4q3/4n3/3Q4/PPPB1PPP/2KR1BNR w kq - 0 9", 3, "Qd8+",
       "facts.md M02, Reti-Tartakower 1910"},
      {"2k1rb1r/ppp3pp/2n2q2/3B1b2/5P2/2P1BQ2/PP1N1P1P/2KR3R b - - 0 14", 2, "Qxc3+",
       "facts.md M03, Schulder-Boden 1853"},
      {"r1b2rk1/pppp1ppp/8/2b1P3/2B3n1/5N2/PP3qPP/RNBQR2K b - - 1 12", 2, "Qg1+",
       "facts.md M04, Greco c.1620"},
      {"r1b1k1nr/p2p1ppp/n2B4/1p1NPN1P/6P1/3P1Q2/P1P1K3/q5b1 w kq - 2 21", 3, "Nxg7+",
       "facts.md M05, Anderssen-Kieseritzky 1851"},
      {"1r2k1r1/pbppnp1p/1b3P2/8/Q7/B1PB1q2/P4PPP/3R2K1 w - - 0 21", 4, "Qxd7+",
       "facts.md M07, Anderssen-Dufresne 1852"},
      {"rn1qkbnr/ppp2p1p/3p2p1/4N3/2B1P3/2N5/PPPP1PPP/R1BbK2R w KQkq - 0 6", 2, "Bxf7+",
       "facts.md M08, Legal"},
      {"8/pp2R2p/4Nkb1/3P1p2/1B5p/8/PP1rr2P/5R1K b - - 2 32", 2, "Rxh2+",
       "facts.md M09, Chigorin-Steinitz 1892"},
      {"4r2k/2pRP1pp/2p5/p4pN1/2Q3n1/q5P1/P3PP1P/6K1 w - - 0 27", 4, "Nf7+",
       "facts.md M10, Timman-Short 1990"},
  };
  for (const Case& c : cases) {
    INFO(c.source);
    const auto p = position(c.fen);
    const auto proof = search::prove_mate(p, 5, 5'000'000);
    REQUIRE(proof);
    CHECK(proof->moves == c.moves);
    CHECK(rules::to_san(p, proof->line.front()) == c.key);
    check_line(p, *proof);
  }
}

TEST_CASE("a mate in six with quiet moves is proven", "[mate][.long]") {
  // facts.md Q06, Short-Timman, Tilburg 1991.
  const auto p = position("2b1rrk1/2pR1p2/1pq1pQp1/p3P2p/P1PR1K1P/5N2/2P2PP1/8 w - - 6 34");
  const auto proof = search::prove_mate(p, 6, 200'000'000);
  REQUIRE(proof);
  CHECK(proof->moves == 6);
  CHECK(rules::to_san(p, proof->line.front()) == "Kg5");
  check_line(p, *proof);
}

TEST_CASE("the prover says what trying everything says", "[mate]") {
  constexpr unsigned seed = 20240614;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  const char* starts[] = {
      "7k/8/5K2/8/8/8/8/R7 w - - 0 1",          "8/8/8/8/8/2k5/1r6/K2Q4 w - - 0 1",
      "6k1/5ppp/8/8/8/8/5PPP/3RR1K1 w - - 0 1", "k7/2K5/8/1N6/8/3B4/8/8 w - - 0 1",
      "7k/5Q2/8/6K1/8/8/p7/8 w - - 0 1",        "5rk1/5ppp/8/6N1/2Q5/8/8/6K1 w - - 0 1",
  };
  int mates = 0;
  for (const char* start : starts) {
    for (int i = 0; i < 30; ++i) {
      const auto p = oracles::random_play(random, position(start), static_cast<int>(random() % 6));
      INFO(rules::to_fen(p));
      int shortest = 0;
      for (int n = 1; n <= 2 && shortest == 0; ++n) {
        if (oracles::naive_mates(p, n)) shortest = n;
      }
      const auto proof = search::prove_mate(p, 2, 10'000'000);
      CHECK((proof ? proof->moves : 0) == shortest);
      if (proof) {
        check_line(p, *proof);
        ++mates;
      }
    }
  }
  CHECK(mates > 10);
}

TEST_CASE("the prover agrees with retrograde tables of three men", "[mate][.long]") {
  constexpr unsigned seed = 20240615;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  struct Ending {
    rules::PieceType man;
    int longest;  // facts.md 6.6, published: KQK 10, KRK 16
  };
  for (const Ending e : {Ending{rules::queen, 10}, Ending{rules::rook, 16}}) {
    const oracles::ThreeMen table(e.man);
    CHECK(table.longest() == e.longest);
    int compared = 0;
    while (compared < 300) {
      rules::Setup setup;
      setup.board[random() % 64] = rules::white_king;
      setup.board[random() % 64] = rules::make_piece(rules::white, e.man);
      setup.board[random() % 64] = rules::black_king;
      const auto p = rules::make_position(setup);
      if (!p || rules::count(p->occupied()) != 3) continue;
      const auto exact = table.moves_to_mate(*p);
      if (exact && *exact > 6) continue;
      INFO(rules::to_fen(*p));
      const auto proof = search::prove_mate(*p, 6, 20'000'000);
      REQUIRE(proof.has_value() == exact.has_value());
      if (proof) CHECK(proof->moves == *exact);
      ++compared;
    }
  }
}

TEST_CASE("no mate and no nodes both give nothing", "[mate]") {
  CHECK_FALSE(search::prove_mate(rules::Position::start(), 2, 1'000'000));
  const auto p = position("rnb1kb1r/pp3ppp/2p5/4q3/4n3/3Q4/PPPB1PPP/2KR1BNR w kq - 0 9");
  CHECK_FALSE(search::prove_mate(p, 3, 10));
  CHECK_FALSE(search::prove_mate(p, 2, 1'000'000));
}
