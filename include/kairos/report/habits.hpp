// A player's habits in plain text: for report.txt and for `kairos habits`.
//
// 100 columns, UTF-8, diagrams in plain characters. Pure; ends with an empty row.
#pragma once

#include <string>

#include "kairos/habits/habit.hpp"

namespace kairos::report {

std::string habits_text(const habits::Habits& habits);

}  // namespace kairos::report
