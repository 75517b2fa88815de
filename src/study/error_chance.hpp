// How likely players err in a position: the shares of its legal moves, by the model of players, each
// counted as far as it is an error by a cheap look at all of them.
//
// A look of few nodes is not sure of a cost. So a move counts for nothing from half of the cost of
// an error down, in full from one and a half times of it up, and between by its cost. The searcher
// is one of its own (study/all_moves.hpp): the answer does not depend on what was played. What
// such chances are worth: src/habits/MEASURED.md.
#pragma once

#include <cstddef>

#include "kairos/study/scoresheet.hpp"
#include "kairos/study/settings.hpp"

namespace kairos::study {

// For the position after `ply` half-moves. Costs at most as many nodes as its survey, no more than
// some 8,000.
ErrorChances error_chances_at(const Scoresheet& sheet, std::size_t ply, const Effort& effort);

}  // namespace kairos::study
