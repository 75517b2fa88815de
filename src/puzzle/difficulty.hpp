// How hard a puzzle is for people: a coarse band 1..5 from named features.
//
// No solver data stand behind it, so it is a band and not a rating: studies of puzzle difficulty
// (Stoiljkovikj, Bratko and Guid, ACS 2015; Hristova, Guid and Bratko 2014) find that the length
// of the solution, plausible wrong moves and how unlike the natural move the answer is carry most
// of what can be known without it.
#pragma once

#include "kairos/puzzle/puzzle.hpp"
#include "kairos/search/verdict.hpp"

namespace kairos::puzzle {

// Line, tries, motifs and settled depth of the puzzle must be filled.
int difficulty_of(const Puzzle& puzzle);

// From which depth on the searcher held the key to be best, to the end.
int settled_depth(const search::Verdict& verdict, rules::Move key);

}  // namespace kairos::puzzle
