#include "kairos/search/settled.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "oracles/search_naive.hpp"
#include "support/games.hpp"

using namespace kairos;
using support::position;

TEST_CASE("nominal values are those of common practice", "[settled]") {
  CHECK(search::nominal_value(rules::pawn) == 100);
  CHECK(search::nominal_value(rules::knight) == 300);
  CHECK(search::nominal_value(rules::bishop) == 300);
  CHECK(search::nominal_value(rules::rook) == 500);
  CHECK(search::nominal_value(rules::queen) == 900);
  CHECK(search::nominal_value(rules::king) == 0);
  CHECK(search::nominal_balance(rules::Position::start()) == 0);
  CHECK(search::nominal_balance(position("4k3/8/8/8/8/8/8/QN2K3 b - - 0 1")) == 1200);
}

TEST_CASE("settled material is what plain minimax finds", "[settled]") {
  constexpr unsigned seed = 20240612;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  const char* starts[] = {
      "4k3/1p3p2/8/2n1p3/4P3/2N5/1P3P2/4K3 w - - 0 1",
      "3rk3/5p2/8/8/3N4/8/5P2/3RK3 w - - 0 1",
      "4k3/P7/8/2b5/8/2R5/6p1/4K3 b - - 0 1",
      "6k1/5ppp/8/8/8/2q5/5PPP/3QR1K1 w - - 0 1",
      "8/8/8/8/8/5k2/6p1/6K1 w - - 0 1",
  };
  for (const char* start : starts) {
    for (int i = 0; i < 6; ++i) {
      const auto p = oracles::random_play(random, position(start), static_cast<int>(random() % 5));
      for (int plies = 1; plies <= 3; ++plies) {
        INFO(rules::to_fen(p) << " plies " << plies);
        if (!rules::has_legal_move(p)) continue;
        const search::Settled settled = search::settle(p, {plies, 50'000'000});
        REQUIRE(settled.complete);
        CHECK(settled.gain == oracles::naive_settle(p, plies));
      }
    }
  }
}

TEST_CASE("the line of a settled value leads to that value", "[settled]") {
  constexpr unsigned seed = 20240613;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  for (int i = 0; i < 40; ++i) {
    const int plies = 20 + static_cast<int>(random() % 40);
    const auto start = oracles::random_play(random, rules::Position::start(), plies);
    if (!rules::has_legal_move(start)) continue;
    const search::Settled settled = search::settle(start, {3, 5'000'000});
    REQUIRE(settled.complete);
    INFO(rules::to_fen(start));
    rules::Position p = start;
    for (const rules::Move m : settled.line) {
      REQUIRE(rules::is_legal(p, m));
      p.play(m);
    }
    if (std::abs(settled.gain) == search::mate_score) {
      CHECK(!rules::has_legal_move(p));
      CHECK(p.in_check());
    } else if (rules::has_legal_move(p)) {
      const int sign = start.side_to_move() == rules::white ? 1 : -1;
      const int won = search::nominal_balance(p) - search::nominal_balance(start);
      CHECK(settled.gain == sign * won);
    }
  }
}

TEST_CASE("quiet moves that win material are seen to win it", "[settled]") {
  struct Case {
    const char* fen;
    const char* move;
    int at_least;
    const char* source;
  };
  const Case cases[] = {
      {"rnbqkb1r/pppp1ppp/8/4P3/6n1/7P/PPPNPPP1/R1BQKBNR b KQkq - 0 4", "Ne3", 500,
       "facts.md Q10, Lazard trap (Winter, Chess Explorations 99): wins the queen"},
      {"7k/1b1r2p1/p6p/1p2qN2/3bP3/3Q4/P5PP/1B1R3K b - - 1 36", "Bg1", 200,
       "facts.md Q09, von Popiel-Marco 1902: wins material"},
      {"r4r2/1b2bp2/pp5k/2ppp3/5PQ1/1P2P3/P1PP2PP/R5K1 w - - 0 22", "Qd7", 300,
       "facts.md Q12, Lasker-Bauer 1889: wins a bishop"},
      {"3r2k1/p4ppp/1q6/8/8/2R1P3/P3QPPP/6K1 b - - 0 29", "Qb2", 400,
       "facts.md Q01, Bernstein-Capablanca 1914: wins at least a rook"},
  };
  for (const Case& c : cases) {
    INFO(c.source);
    const auto p = position(c.fen);
    const auto key = rules::parse_san(p, c.move);
    REQUIRE(key);
    const search::Settled by_key = search::settle(p, {}, *key);
    REQUIRE(by_key.complete);
    CHECK(by_key.gain >= c.at_least);
    CHECK(by_key.line.front() == *key);
    // No other move wins as much: the claim "quiet win" rests on that.
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    for (const rules::Move m : moves) {
      if (m != *key) CHECK(search::settle(p, {}, m).gain < by_key.gain);
    }
  }
}

TEST_CASE("by depth settled material is what each depth says alone", "[settled]") {
  const auto p =
      rules::parse_fen("r1bqkbnr/pppp1ppp/2n5/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR b KQkq - 3 3");
  const auto depths = search::settle_by_depth(*p, {4, 1'000'000});
  REQUIRE(depths.size() == 4);
  for (int plies = 1; plies <= 4; ++plies) {
    const search::Settled alone = search::settle(*p, {plies, 1'000'000});
    const search::Settled& with_others = depths[static_cast<std::size_t>(plies) - 1];
    CHECK(with_others.gain == alone.gain);
    CHECK(with_others.line == alone.line);
    CHECK(with_others.nodes == alone.nodes);
  }
  const auto cut = search::settle_by_depth(*p, {9, 5'000});
  CHECK_FALSE(cut.back().complete);
  CHECK(cut.back().nodes <= 5'000);
  CHECK(cut.front().complete);
}

TEST_CASE("a proof cut by its node limit claims nothing", "[settled]") {
  const search::Settled settled = search::settle(rules::Position::start(), {5, 1000});
  CHECK_FALSE(settled.complete);
  CHECK(settled.gain == 0);
  CHECK(settled.nodes <= 1000);
}

TEST_CASE("mate and stalemate settle as such", "[settled]") {
  const auto mate = search::settle(position("6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1"));
  CHECK(mate.gain == search::mate_score);
  CHECK(mate.line.size() == 1);
  // Black, a queen behind, is saved by stalemate: the whole advantage is gone.
  const auto only_queen = position("7k/8/5K2/6Q1/8/8/8/8 w - - 0 1");
  const auto stalemating = rules::parse_san(only_queen, "Qg6");
  REQUIRE(stalemating);
  CHECK(search::settle(only_queen, {3, 100'000}, *stalemating).gain == -900);
}
