#include <catch2/catch.hpp>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/setup.hpp"

#include "evaluator.hpp"

using namespace kairos;

namespace {

struct Count {
  int won = 0, drawn = 0;
};

// All legal placements of king and pawn against king, as evaluated: a drawn one is exactly 0.
Count count_placements(rules::Color side) {
  search::Evaluator evaluator;
  Count count;
  for (int pawn = 8; pawn < 56; ++pawn) {
    for (int wk = 0; wk < 64; ++wk) {
      for (int bk = 0; bk < 64; ++bk) {
        if (wk == bk || wk == pawn || bk == pawn) continue;
        rules::Setup setup;
        setup.board[static_cast<std::size_t>(wk)] = rules::white_king;
        setup.board[static_cast<std::size_t>(bk)] = rules::black_king;
        setup.board[static_cast<std::size_t>(pawn)] = rules::white_pawn;
        setup.side_to_move = side;
        const auto p = rules::make_position(setup);
        if (!p) continue;
        evaluator.reset(*p);
        ++(evaluator.evaluate().score == 0 ? count.drawn : count.won);
      }
    }
  }
  return count;
}

}  // namespace

TEST_CASE("king and pawn against king is won and drawn as often as computed elsewhere", "[kpk]") {
  // facts.md 6.6 "KPK counts" [calc], the totals as remembered there from Clarke (1977).
  const Count white = count_placements(rules::white);
  CHECK(white.won == 124960);
  CHECK(white.drawn == 38368);
  const Count black = count_placements(rules::black);
  CHECK(black.won == 97604);
  CHECK(black.drawn == 70420);
}

TEST_CASE("textbook positions of king and pawn against king", "[kpk]") {
  struct Case {
    const char* fen;
    bool won;
    const char* source;
  };
  const Case cases[] = {
      {"8/3k4/3P4/4K3/8/8/8/8 b - - 0 1", false, "facts.md O08: Fine, Basic Chess Endings"},
      {"3k4/8/3P4/4K3/8/8/8/8 w - - 0 1", false, "facts.md O08 after 1...Kd8"},
      {"4k3/8/3P4/4K3/8/8/8/8 w - - 0 1", true, "facts.md O08 after any other king move"},
      {"4k3/8/8/8/8/1P6/8/2K5 w - - 0 1", true, "facts.md O09"},
      {"4k3/8/8/8/8/1P6/1K6/8 b - - 0 1", true, "facts.md O09 after 1.Kb2"},
      {"4k3/8/8/8/8/1P6/2K5/8 b - - 0 1", false, "facts.md O09: 1.Kb2 is the only winning move"},
      {"7k/8/8/8/8/8/7P/7K w - - 0 1", false, "common practice: rook pawn, king in the corner"},
      {"3k4/8/3K4/3P4/8/8/8/8 w - - 0 1", true, "common practice: king on the sixth"},
      {"3k4/8/3K4/3P4/8/8/8/8 b - - 0 1", true, "common practice: king on the sixth"},
  };
  for (const Case& c : cases) {
    INFO(c.source << ": " << c.fen);
    const auto p = rules::parse_fen(c.fen);
    REQUIRE(p);
    search::Evaluator evaluator;
    evaluator.reset(*p);
    CHECK((evaluator.evaluate().score != 0) == c.won);
  }
}
