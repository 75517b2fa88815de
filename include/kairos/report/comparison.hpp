// Moves compared (audience/comparison.hpp), as text for people or one JSON object for programs.
//
// Scores are White's, expectations those of the side to move. Rows end with a line end. Pure.
#pragma once

#include <string>

#include "kairos/audience/comparison.hpp"

namespace kairos::report {

// The moves called out, each with its line, and the best; or all legal moves in a table. The board
// above them where it is asked for.
std::string comparison_text(const audience::Comparison& comparison, bool with_board);
std::string comparison_json(const audience::Comparison& comparison);
// Of a move that cannot be played there: "illegal move: the way from e1 to e4 is blocked".
std::string refusal_words(const rules::Position& position, const audience::CalledMove& called);

}  // namespace kairos::report
