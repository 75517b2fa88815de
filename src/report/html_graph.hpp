// The graph of a game: White's expectation over the moves, the moments marked and linked, the
// clocks below where the game has them. SVG; each mark is a link to `moment_anchor` of its moment.
#pragma once

#include <string>

#include "kairos/study/study.hpp"

namespace kairos::report {

// White's expectation after each number of half-moves, 0 .. moves.size().
std::vector<double> white_expectations(const study::Study& study);

std::string graph(const study::Study& study);
// What the marks in the graph mean, for the kinds this game has.
std::string graph_legend(const study::Study& study);

// "g12", "g12-p45", and with the place among moments of one ply where there are several
// "g12-p45-2".
std::string game_anchor(const study::GameFacts& facts);
std::string moment_anchor(const study::Study& study, std::size_t index);

}  // namespace kairos::report
