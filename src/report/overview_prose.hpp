// What players.html and players.txt say, the same words for both.
#pragma once

#include <string>
#include <vector>

#include "kairos/report/overview.hpp"

namespace kairos::report {

// The figures of a row in words. `held_against` and `compared` belong together: errors expected and
// how many times as many there were, or the field's rate and the player's.
struct OverviewCells {
  std::string name, games, decisions, errors, held_against, compared;
  std::string rating;  // from moves; "" where nothing can be told
  std::string habits;  // "in rook endings; when moving a knight", "none", "too few games"
};
OverviewCells cells_of(const OverviewRow& row);

// What stands above the cells: of the first row's measure, for all have the same.
struct OverviewHeads {
  std::string held_against, compared;
};
OverviewHeads heads_of(const Overview& overview);

// "12 players".
std::string overview_title(const Overview& overview);
// What the columns mean.
std::string overview_meaning(const Overview& overview);
// Who could not be told; "" where all could.
std::string left_out_words(const Overview& overview);
// Whose expectation rests on the rating of those without one; "" where all have one.
std::string unrated_words(const Overview& overview);

inline constexpr std::string_view rating_title = "Rating from moves";
inline constexpr std::string_view more_wrong_title = "More goes wrong";

}  // namespace kairos::report
