// The count of many people's answers to an exercise: as a table for people, as a page that a
// browser shows over video, or as one JSON object for programs; and the points of several
// questions.
//
// Rows end with a line end; names are as the count has them, cut and stripped. Pure.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/audience/evening.hpp"
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

// Where a question stands among those of an evening.
struct EveningView {
  std::size_t number = 1, of = 1;
  std::vector<audience::Place> places{};
};
// A whole page that loads itself again every second: the position, a bar for each move and, when it
// reveals, the key, the first who had it, what is wrong with the other moves, how many would have
// found it, and the points so far. Before that nothing in its bytes tells who is right.
std::string tally_page(const puzzle::Exercise& exercise, const audience::Tally& tally,
                       const TallyView& view, const EveningView& evening, std::string_view version);

// "1. anna, bert: 3 points", a row for each of the first places; "" where nobody has any.
std::string places_text(const std::vector<audience::Place>& places, std::size_t most);
std::string places_json(const std::vector<audience::Place>& places);

}  // namespace kairos::report
