// How many players would find the best move of a moment, by the model of players (people).
#pragma once

#include <vector>

#include "kairos/study/moment.hpp"
#include "kairos/study/scoresheet.hpp"

namespace kairos::study {

// Fills `find_rate` of the moments of one ply. Looks at all moves of the position once, if there is
// a moment at all, with a searcher of its own: nothing else changes by it.
void give_find_rates(const Scoresheet& sheet, int ply, std::vector<Moment>& moments);

}  // namespace kairos::study
