// A game of report.txt: its story, its turning points, its notes; at most two pages.
#pragma once

#include <string>

#include "kairos/report/text_layout.hpp"
#include "kairos/report/turning_points.hpp"
#include "kairos/report/writer.hpp"

namespace kairos::report {

// "" where there is nothing to tell.
std::string game_text(const Collection& collection, std::size_t index);

// Characters of a row beside a board.
inline constexpr std::size_t beside_board = page_width - 24;
// The board of a point with rows beside it.
Rows board_beside(const TurningPoint& point, const Rows& rows);
// The board of a point; beside it `text`, the lines that show what it says and what they are worth.
Rows point_rows(const TurningPoint& point, const std::string& text);

}  // namespace kairos::report
