// An interval as a bar from 0 to 100 %, the share itself as a tick. Figures stand beside it, so it
// is hidden from screen readers.
#pragma once

#include <cstdint>
#include <string>

#include "kairos/base/interval.hpp"

namespace kairos::report {

// Of `hits` in `trials`, at least one trial.
std::string interval_bar(std::uint64_t hits, std::uint64_t trials, const base::Interval& interval);

}  // namespace kairos::report
