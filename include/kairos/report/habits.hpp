// A player's habits in plain text, 100 columns: for report.txt and for `kairos habits`.
#pragma once

#include <string>

#include "kairos/habits/habit.hpp"

namespace kairos::report {

std::string habits_text(const habits::Habits& habits);

}  // namespace kairos::report
