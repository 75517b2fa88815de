// The count of many people's answers to an exercise, as a table for people or one JSON object for
// programs.
//
// Rows end with a line end; names are as the count has them, cut and stripped. Pure.
#pragma once

#include <string>

#include "kairos/audience/tally.hpp"
#include "kairos/puzzle/exercise.hpp"

namespace kairos::report {

// The `most` moves that most people named, and every key; without verdicts nothing in it tells who
// is right. `level` is the rating of players whose find rate stands beside that of the people,
// where the exercise has any; beyond the ratings known it is the nearest of these.
std::string tally_text(const puzzle::Exercise& exercise, const audience::Tally& tally, int level,
                       std::size_t most, bool with_verdicts);
std::string tally_json(const puzzle::Exercise& exercise, const audience::Tally& tally, int level);

}  // namespace kairos::report
