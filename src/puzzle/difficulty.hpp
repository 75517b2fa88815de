// How hard a puzzle is for people: a coarse band 1..5 from named features, and the figures.
//
// No solver data stand behind it, so it is a band and not a rating: studies of puzzle difficulty
// (Stoiljkovikj, Bratko and Guid, ACS 2015; Hristova, Guid and Bratko 2014) find that the length
// of the solution, plausible wrong moves and how unlike the natural move the answer is carry most
// of what can be known without it.
#pragma once

#include <string>

#include "kairos/puzzle/puzzle.hpp"
#include "kairos/search/verdict.hpp"

namespace kairos::puzzle {

struct Difficulty {
  int level = 1;
  std::string why;
};

// `verdict` is of the puzzle's position; line and tries of the puzzle must be filled.
Difficulty difficulty_of(const Puzzle& puzzle, const search::Verdict& verdict);

// From which depth on the searcher held the key to be best, to the end.
int settled_depth(const search::Verdict& verdict, rules::Move key);

}  // namespace kairos::puzzle
