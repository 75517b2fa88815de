// The section of report.html on what keeps coming back with one player.
#pragma once

#include <string>

#include "kairos/habits/habit.hpp"

namespace kairos::report {

std::string habits_section(const habits::Habits& habits);

}  // namespace kairos::report
