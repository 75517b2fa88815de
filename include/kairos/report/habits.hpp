// A player's habits in plain text: for report.txt and for `kairos habits`.
//
// 100 columns, UTF-8, diagrams in plain characters. Pure; ends with an empty row.
#pragma once

#include <string>
#include <string_view>

#include "kairos/habits/habit.hpp"

namespace kairos::report {

// `opponent`: the player's name, fit to be shown, where it is written for somebody who prepares to
// play him or her; empty: for the player.
std::string habits_text(const habits::Habits& habits, std::string_view opponent = "");

}  // namespace kairos::report
