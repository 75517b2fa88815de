// A game of report.txt: its story, its turning points, its notes; at most two pages.
#pragma once

#include <string>

#include "kairos/report/writer.hpp"

namespace kairos::report {

// "" where there is nothing to tell.
std::string game_text(const Collection& collection, std::size_t index);

}  // namespace kairos::report
