// From a player's studies to the season (season.hpp): one pass over all of them, then those that an
// entry stands in once more. Memory holds some forty bytes a moment and the studies of the entries,
// seventy at the most. Pure but for what the source does.
#pragma once

#include <string>
#include <vector>

#include "kairos/habits/collect.hpp"
#include "kairos/habits/season.hpp"

namespace kairos::habits {

// Of the games in which one of these names plays one side (as in the tags). The source must hold
// each game once. `rule`: what an error is, where errors are counted by the clock.
Season look_back(const Source& source, const std::vector<std::string>& names,
                 const DecisionRule& rule = {});

}  // namespace kairos::habits
