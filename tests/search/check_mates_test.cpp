// Mates by checks alone: published ones are found, what is found is a mate, and what trying
// everything finds among checks is found too.
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/mate.hpp"

#include "oracles/search_naive.hpp"
#include "support/games.hpp"

using namespace kairos;
using search::ForcedMate;
using support::position;

namespace {

// The line is legal, its first side only gives check, and it ends in mate.
void check_line(rules::Position p, const ForcedMate& mate) {
  const rules::Color attacker = p.side_to_move();
  CHECK(mate.line.score == search::mate_in_plies(static_cast<int>(mate.line.moves.size())));
  for (const rules::Move m : mate.line.moves) {
    REQUIRE(rules::is_legal(p, m));
    if (p.side_to_move() == attacker) CHECK(p.gives_check(m));
    p.play(m);
  }
  CHECK(rules::is_checkmate(p));
}

// Whether checks alone mate in at most `n` moves, by trying all of them and all replies.
bool naive_check_mate(const rules::Position& p, int n) {
  rules::MoveList moves;
  rules::legal_moves(p, moves);
  return n > 0 && std::any_of(moves.begin(), moves.end(), [&](rules::Move m) {
           if (!p.gives_check(m)) return false;
           const rules::Position next = p.after(m);
           rules::MoveList replies;
           rules::legal_moves(next, replies);
           return std::all_of(replies.begin(), replies.end(), [&](rules::Move reply) {
             return naive_check_mate(next.after(reply), n - 1);
           });
         });
}

}  // namespace

TEST_CASE("published mates by checks are found", "[check_mates]") {
  struct Case {
    const char* fen;
    std::size_t plies;
    const char* source;
  };
  const Case cases[] = {
      {"rnb1kb1r/pp3ppp/2p5/4q3/4n3/3Q4/PPPB1PPP/2KR1BNR w kq - 0 9", 5,
       "facts.md M02, Reti-Tartakower 1910"},
      {"2k1rb1r/ppp3pp/2n2q2/3B1b2/5P2/2P1BQ2/PP1N1P1P/2KR3R b - - 0 14", 3,
       "facts.md M03, Schulder-Boden 1853"},
      {"r1b1k1nr/p2p1ppp/n2B4/1p1NPN1P/6P1/3P1Q2/P1P1K3/q5b1 w kq - 2 21", 5,
       "facts.md M05, Anderssen-Kieseritzky 1851"},
      {"1r2k1r1/pbppnp1p/1b3P2/8/Q7/B1PB1q2/P4PPP/3R2K1 w - - 0 21", 7,
       "facts.md M07, Anderssen-Dufresne 1852"},
      {"4r2k/2pRP1pp/2p5/p4pN1/2Q3n1/q5P1/P3PP1P/6K1 w - - 0 27", 7,
       "facts.md M10, Timman-Short 1990"},
  };
  for (const Case& c : cases) {
    INFO(c.source);
    const auto p = position(c.fen);
    const ForcedMate mate = search::mate_by_checks(p, 20'000);
    REQUIRE_FALSE(mate.line.moves.empty());
    CHECK(mate.line.moves.size() >= c.plies);
    CHECK(mate.nodes <= 40'000);
    check_line(p, mate);
  }
}

TEST_CASE("mates by checks are those that trying all checks finds", "[check_mates]") {
  constexpr unsigned seed = 20261125;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  const char* starts[] = {
      "6k1/5ppp/8/8/8/8/5PPP/3RR1K1 w - - 0 1",
      "5rk1/5ppp/8/6N1/2Q5/8/8/6K1 w - - 0 1",
      "r4rk1/ppp2ppp/8/4N3/2BQ4/8/PPP2PPP/R4RK1 w - - 0 1",
      "r1b1k2r/pppp1Qpp/2n5/4p3/2B1n3/8/PPPP1PPP/RNB1K1NR b KQkq - 0 1",
  };
  int mates = 0, none = 0;
  for (int i = 0; i < 400; ++i) {
    const auto start = position(starts[static_cast<std::size_t>(i) % std::size(starts)]);
    const auto p = oracles::random_play(random, start, static_cast<int>(random() % 12));
    INFO(rules::to_fen(p));
    const ForcedMate mate = search::mate_by_checks(p, 20'000);
    if (naive_check_mate(p, 3)) REQUIRE_FALSE(mate.line.moves.empty());
    if (mate.line.moves.empty()) {
      ++none;
    } else {
      check_line(p, mate);
      ++mates;
    }
  }
  CHECK(mates > 20);
  CHECK(none > 20);
}

TEST_CASE("any number of nodes may be allowed", "[check_mates]") {
  const auto p = position("1r2k1r1/pbppnp1p/1b3P2/8/Q7/B1PB1q2/P4PPP/3R2K1 w - - 0 21");
  const ForcedMate few = search::mate_by_checks(p, 20'000);
  for (const std::uint64_t nodes : {std::uint64_t{1} << 40, UINT64_MAX}) {
    const ForcedMate many = search::mate_by_checks(p, nodes);
    CHECK(many.line.score == few.line.score);
    check_line(p, many);
  }
}

TEST_CASE("the least nodes find no mate and do no harm", "[check_mates]") {
  const auto p = position("1r2k1r1/pbppnp1p/1b3P2/8/Q7/B1PB1q2/P4PPP/3R2K1 w - - 0 21");
  for (const std::uint64_t nodes : {0U, 1U, 16U, 20U, 64U}) {
    const ForcedMate mate = search::mate_by_checks(p, nodes);
    CHECK(mate.nodes <= 2 * nodes);
    if (!mate.line.moves.empty()) check_line(p, mate);
  }
}
