// The count of many people's answers to an exercise, as a table for people or one JSON object for
// programs.
//
// Rows end with a line end; names are as the count has them, cut and stripped. Pure.
#pragma once

#include <string>

#include "kairos/audience/tally.hpp"
#include "kairos/puzzle/exercise.hpp"
#include "kairos/rules/letters.hpp"
#include "kairos/study/moment.hpp"

namespace kairos::report {

// How a count is shown.
struct TallyView {
  std::size_t most = 12;  // moves shown, those that most people named; and every key
  // Whether it is told who is right: the keys, the verdicts, who was first.
  bool reveals = true;
  // Rating of players whose find rate stands beside that of the people, where the exercise has any;
  // beyond the ratings known it is the nearest of these.
  int level = study::unrated;
  rules::Letters letters = rules::Letters::english;
};

std::string tally_text(const puzzle::Exercise& exercise, const audience::Tally& tally,
                       const TallyView& view);
std::string tally_json(const puzzle::Exercise& exercise, const audience::Tally& tally, int level);

}  // namespace kairos::report
