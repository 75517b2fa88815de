// One game of the HTML report: facts, graph, moments.
#pragma once

#include <string>

#include "kairos/report/writer.hpp"

namespace kairos::report {

// The move that led to the position after `ply` half-moves; "no move" at the start.
rules::Move move_before(const study::Study& study, int ply);

// The puzzle made of this moment, or nullptr.
const puzzle::Puzzle* puzzle_of(const Collection& collection, const study::Study& study,
                                const study::Moment& moment);

// An <article> with `game_anchor` as its id.
std::string game_article(const Collection& collection, const study::Study& study);

}  // namespace kairos::report
