// From what was verified of a game to what is told of it: slips become slides and turns, or
// nothing.
//
// Pure: it reads the study and searches nothing, so that a game whose places are not all verified
// yet is told by what is there. The rules stand at the top of src/study/told.cpp.
#pragma once

#include "kairos/study/study.hpp"

namespace kairos::study {

// `study.moments` as they came from verifying; afterwards in their order (study.hpp), without
// slips.
void tell(Study& study);

// Whether one side won at the board: by the result, and not by forfeit or adjudication (Termination
// tag).
bool was_won_at_the_board(const GameFacts& facts);
// The side that lost; of a game that was won.
rules::Color loser_of(const GameFacts& facts);
// Whether a moment of the loser's is told that may explain the loss: a swing, a slide, a turn, or
// a game given up early.
bool tells_where_it_was_lost(const Study& study);

}  // namespace kairos::study
