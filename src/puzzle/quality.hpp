// How good a puzzle is for players of a rating, and how much two are alike. Both are whole numbers,
// so that an order by them is the same everywhere.
#pragma once

#include <string_view>

#include "kairos/puzzle/puzzle.hpp"
#include "kairos/study/phase.hpp"

namespace kairos::puzzle {

// Points; more is better. None of them depends on other puzzles.
int quality(const Puzzle& puzzle, int level);

// What makes puzzles alike. Names are views into the puzzle's label, which must outlive this.
struct Traits {
  explicit Traits(const Puzzle& puzzle);

  std::uint64_t game;
  std::string_view white, black;  // surnames; "" where not known
  study::Kind kind;
  int difficulty;
  int motif;  // the most telling; -1: none
  study::Phase phase;
};
// Points to be taken off one of the two where both stand near one another; 0: nothing in common.
int likeness(const Traits& one, const Traits& other);

}  // namespace kairos::puzzle
