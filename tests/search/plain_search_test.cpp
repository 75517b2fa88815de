#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "oracles/search_naive.hpp"
#include "support/games.hpp"
#include "worker.hpp"

using namespace kairos;
using search::Limits;
using search::Score;
using search::Technique;
using search::Techniques;
using search::Worker;
using support::position;

namespace {

constexpr std::size_t small_table = std::size_t{1} << 16;

// What is left without any technique but the checks in quiescence, which belong to its definition.
constexpr Techniques plain = Techniques::none().with(Technique::quiescence_checks);
// The same with those that order moves or narrow windows: they must not change a score either.
constexpr Techniques sound = plain.with(Technique::killers)
                                 .with(Technique::continuation_history)
                                 .with(Technique::aspiration_windows);

Score score_of(const rules::Position& p, Limits limits, Techniques techniques) {
  limits.nodes = 1'000'000'000;
  return Worker(small_table, techniques).run(p, {}, limits).lines.front().score;
}

struct Start {
  const char* fen;
  unsigned plies;  // of random moves at most
  int depth;
};

// Compares the score of each move alone, and that of the best.
void compare_with_twin(const Start& start, int rounds, unsigned seed) {
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  for (int i = 0; i < rounds; ++i) {
    const auto plies = static_cast<int>(random() % (start.plies + 1));
    const auto p = oracles::random_play(random, position(start.fen), plies);
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    if (moves.empty()) continue;
    INFO(rules::to_fen(p) << " depth " << start.depth);
    Limits limits;
    limits.depth = start.depth;
    const auto scores = oracles::naive_search(p, start.depth);
    const Score best = *std::max_element(scores.begin(), scores.end());
    CHECK(score_of(p, limits, plain) == best);
    CHECK(score_of(p, limits, sound) == best);
    for (std::size_t m = 0; m < moves.size(); ++m) {
      INFO(rules::to_san(p, moves[m]));
      limits.root_moves = {moves[m]};
      CHECK(score_of(p, limits, plain) == scores[m]);
    }
  }
}

}  // namespace

TEST_CASE("without any pruning or reduction the search finds what plain minimax finds",
          "[searcher]") {
  const Start starts[] = {
      {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", 20, 2},
      {"4k3/1p3p2/8/2n1p3/4P3/2N5/1P3P2/4K3 w - - 0 1", 20, 3},
      {"3rk3/5p2/8/8/3N4/8/5P2/3RK3 w - - 0 1", 20, 3},
      {"4k3/P7/8/2b5/8/2R5/6p1/4K3 b - - 0 1", 12, 3},
      {"7k/8/5K2/8/8/8/8/R7 w - - 0 1", 6, 5},       // mates, and positions met again
      {"8/8/3k4/3p4/8/3K4/4P3/8 w - - 0 1", 12, 5},  // pawn endings, known ones below
      {"8/2k5/8/8/8/1P6/8/2K5 w - - 0 1", 12, 5},
      {"8/8/8/8/8/5k2/6p1/6K1 w - - 0 1", 4, 6},   // stalemate
      {"8/8/8/3k4/8/8/8/KQ6 w - - 96 120", 3, 4},  // fifty moves without anything
  };
  for (const Start& start : starts) compare_with_twin(start, 12, 20240623);
}

TEST_CASE("the same deeper, and in the middle of the fight", "[searcher][.long]") {
  const Start starts[] = {
      {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", 50, 2},
      {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", 8, 3},
      {"6k1/5ppp/8/8/8/2q5/5PPP/3QR1K1 w - - 0 1", 20, 3},
      {"4k3/1p3p2/8/2n1p3/4P3/2N5/1P3P2/4K3 w - - 0 1", 20, 4},
      {"8/8/3k4/3p4/8/3K4/4P3/8 w - - 0 1", 12, 7},
  };
  for (const Start& start : starts) compare_with_twin(start, 24, 20240624);
}

TEST_CASE("each technique changes what the search does, and no line is spoilt without it",
          "[searcher][slow]") {
  const char* fens[] = {
      "r1bq1rk1/pp2bppp/2n1pn2/2pp4/3P1B2/2PBPN2/PP1N1PPP/R2QK2R w KQ - 4 8",
      "r4rk1/1bq1bppp/p2ppn2/1p6/3NPP2/1BN1B3/PPP3PP/R2Q1RK1 b - - 0 13",
      "4r2k/2pRP1pp/2p5/p4pN1/2Q3n1/q5P1/P3PP1P/6K1 w - - 0 27",  // facts.md M10: a mate by checks
  };
  for (int t = 0; t < search::technique_count; ++t) {
    INFO("without technique " << t);
    const auto without = Techniques::all().without(static_cast<Technique>(t));
    bool changes = false;
    for (const char* fen : fens) {
      const auto p = position(fen);
      Limits limits;
      limits.nodes = 60'000;
      const auto all = Worker(small_table).run(p, {}, limits);
      const auto verdict = Worker(small_table, without).run(p, {}, limits);
      changes = changes || verdict != all;
      rules::Position at = p;
      for (const rules::Move m : verdict.lines.front().moves) {
        REQUIRE(rules::is_legal(at, m));
        at.play(m);
      }
    }
    CHECK(changes);
  }
}
