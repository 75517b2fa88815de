// The section of an HTML page on what keeps coming back with one player.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/habits/habit.hpp"

namespace kairos::report {

// Of report.html, whose puzzles all stand in questions.html.
std::string habits_section(const habits::Habits& habits);
// Of a page on which the puzzles with the ids `here` stand themselves; `opponent` as for
// habits_text (habits.hpp).
std::string habits_section(const habits::Habits& habits, const std::vector<std::string>& here,
                           std::string_view opponent);

}  // namespace kairos::report
