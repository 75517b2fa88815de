// What measuring has added to the chances of the model (chances.hpp). Internal to habits.
#pragma once

#include <optional>
#include <string_view>

namespace kairos::habits {

// What a circumstance adds to the log odds of an error; nothing where that was not measured: the
// clock, and what is not in every game.
std::optional<double> log_odds_of(std::string_view circumstance);
// The part of the errors, among the decisions that could have brought it, that a flaw is.
std::optional<double> part_of_errors(std::string_view flaw);

// The log odds are those of the model times `by_model`, and so much more.
double log_odds_of_all();
double by_model();
double by_rating();  // for place_of_rating

}  // namespace kairos::habits
