// The graph of a game: White's expectation over the moves, the turning points marked and linked,
// the clocks below where the game has them. SVG; each mark is a link to the `point_anchor` of its
// point.
#pragma once

#include <string>
#include <vector>

#include "kairos/report/turning_points.hpp"
#include "kairos/study/study.hpp"

namespace kairos::report {

std::string graph(const study::Study& study, const std::vector<TurningPoint>& points);
// What the marks in the graph mean, for the kinds that lead a point of this game.
std::string graph_legend(const study::Study& study, const std::vector<TurningPoint>& points);

// "g12", "g12-p45".
std::string game_anchor(const study::GameFacts& facts);
std::string point_anchor(const study::Study& study, const TurningPoint& point);

}  // namespace kairos::report
