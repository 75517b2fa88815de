// The puzzle part of report.txt: positions first, solutions at the very end.
#pragma once

#include <string>

#include "kairos/report/writer.hpp"

namespace kairos::report {

// Every puzzle with its diagram and FEN; no answer.
std::string puzzle_positions(const Collection& collection);
// Every why-not with the position of the game; no answer.
std::string why_not_positions(const Collection& collection);
// Of a single game, whose positions have been shown: which of them are puzzles or why-nots, and
// where they are.
std::string puzzle_names(const Collection& collection);
// Of both: key, line, why it works, and the tries with what refutes them.
std::string puzzle_solutions(const Collection& collection);

}  // namespace kairos::report
