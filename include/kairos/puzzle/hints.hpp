// Hints for people who are stuck at a puzzle.
//
// From general to particular, none of which gives the move away: the aim, the kind of move,
// the man, the theme.
#pragma once

#include "kairos/puzzle/puzzle.hpp"

namespace kairos::puzzle {

std::vector<std::string> hints_of(const Puzzle& puzzle);

}  // namespace kairos::puzzle
