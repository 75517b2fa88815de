// One game of the HTML report: facts, story, graph, turning points, notes.
#pragma once

#include <string>
#include <vector>

#include "kairos/report/turning_points.hpp"
#include "kairos/report/writer.hpp"

#include "html_diagram.hpp"

namespace kairos::report {

// The move that led to the position after `ply` half-moves; "no move" at the start.
rules::Move move_before(const study::Study& study, int ply);

// The puzzles made of this point, then the why-not of its trap; they live in the collection.
std::vector<const puzzle::Puzzle*> puzzles_of(const Collection& collection,
                                              const study::Study& study, const TurningPoint& point);

// " after 12 min", as markup, where both of the player's clock readings are known.
std::string spent_words(const study::Study& study, const TurningPoint& point);

// The move before, as arrows the move that was wrong (played or avoided) and the right one, and
// around what the first reason of each speaks of rings, four at most. For readers who see the
// answer anyway.
Marks marks_of(const study::Study& study, const TurningPoint& point);

// The story as a paragraph; "" where there is none.
std::string story_html(const RunFacts& facts, const study::Study& study,
                       const std::vector<TurningPoint>& points);

// "g12-notes": the player's notes of a game.
std::string notes_anchor(const study::GameFacts& facts);

// An <article> with `game_anchor` as its id.
std::string game_article(const Collection& collection, std::size_t index);

}  // namespace kairos::report
