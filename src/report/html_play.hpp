// A game to be played through: its full score, and the script that puts one board beside it.
//
// Read without the script the score is a text, with a link at each turning point. The script builds
// a game's board when it comes near the window. It needs of the page: .score with data-start,
// data-moves, data-worth (White's expectation in percent, of each position) and data-below ("b" for
// Black's side of the board), .line as html_line.hpp writes them, .said, .moment with data-ply and
// its marks, and the .graph.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/report/turning_points.hpp"
#include "kairos/study/study.hpp"

namespace kairos::report {

// The score as a paragraph; "" for a game without moves. The board is first seen with `below`
// below.
std::string score_html(const study::Study& study, const std::vector<TurningPoint>& points,
                       rules::Color below);

std::string_view play_style();   // html_play_style.cpp
std::string_view play_script();  // with its <script> tags; html_play_script.cpp

}  // namespace kairos::report
