// What measuring has added to the chances of the model (chances.hpp). Internal to habits.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace kairos::habits {

// What a circumstance adds to the log odds of an error; nothing where that was not measured: the
// clock, and what is not in every game.
std::optional<double> log_odds_of(std::string_view circumstance);
// The part of the errors, among the decisions that could have brought it, that a flaw is.
std::optional<double> part_of_errors(std::string_view flaw);

// The log odds are so many, and more by those of the model and by their square.
double log_odds_of_all();
double by_model();
double by_model_squared();
double by_rating();  // for place_of_rating
// For a survey of so many nodes a position: longer ones find fewer errors.
double by_effort(std::uint64_t nodes);
// For what the second best move costs, of which at most `most_gap` counts.
double by_gap();
inline constexpr double most_gap = 0.5;

}  // namespace kairos::habits
