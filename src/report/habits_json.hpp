// Rates and habits as JSON, for the object that `kairos habits` prints of a player
// (player_json.cpp). Its fields stand in DEVELOPERS.md. Internal to report.
#pragma once

#include "kairos/base/json.hpp"
#include "kairos/habits/habit.hpp"

namespace kairos::report {

base::Json rate_json(const habits::Rate& rate);
// An object with what is told of all decisions and of the habits.
base::Json habits_json(const habits::Habits& habits);

}  // namespace kairos::report
