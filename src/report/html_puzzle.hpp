// A puzzle in HTML, question and answer apart: the report, the questions and the sheet share these.
#pragma once

#include <string>

#include "kairos/report/writer.hpp"

namespace kairos::report {

// It with the last move marked, where the game has one, or the move that was not played; no answer.
std::string puzzle_diagram(const puzzle::Puzzle& puzzle);

// Heading and explanation of the why-nots; the anchor is "why-not".
std::string why_not_opening();

// "●●○○○" with the same in words for screen readers.
std::string puzzle_grade(const puzzle::Puzzle& puzzle);

// The tries as a list, each with what refutes it and its score.
std::string puzzle_tries(const puzzle::Puzzle& puzzle);

// Markup of the solution: the line, the tries, the themes, the game.
std::string puzzle_answer(const puzzle::Puzzle& puzzle);

}  // namespace kairos::report
