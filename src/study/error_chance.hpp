// How likely players err in a position: the shares of its legal moves, by the model of players,
// each counted as far as it is an error.
//
// What the best two moves cost the survey knows; the others cost no less than the second, and else
// what a cheap look at all moves says (study/all_moves.hpp, a searcher of its own). Such a look is
// not sure of a cost. So a move counts for nothing up to half of the cost of an error, in full from
// one and a half times of it, and between by its cost. Which move was played makes no difference.
// What such chances are worth: src/habits/MEASURED.md.
#pragma once

#include <cstddef>

#include "kairos/study/scoresheet.hpp"
#include "kairos/study/settings.hpp"

namespace kairos::study {

// For the position after `ply` half-moves, of which `note` is the survey's. Costs some 3,000 nodes,
// less where the survey takes less.
ErrorChances error_chances_at(const Scoresheet& sheet, std::size_t ply, const Note& note,
                              const Effort& effort);

}  // namespace kairos::study
