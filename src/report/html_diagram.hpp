// Diagrams: a position as SVG, seen from the side to move, with a description in words.
//
// The page must carry `diagram_definitions` once, and `diagram_key` where marks are first used that
// do not explain themselves. Each mark has a shape of its own; none is told by colour alone.
#pragma once

#include <string>
#include <vector>

#include "kairos/rules/position.hpp"

namespace kairos::report {

struct Marks {
  rules::Move last;                         // led to the position; its squares are marked
  rules::Move played;                       // a broken arrow; leave it out where it is the answer
  rules::Move better = {};                  // a whole arrow; only where answers are shown
  rules::Move avoided = {};                 // a dotted arrow: tempting, and not played
  std::vector<rules::Square> squares = {};  // ringed: what the text beside it speaks of
};

// What the marks mean, as a paragraph.
std::string diagram_key();

std::string diagram(const rules::Position& position, const Marks& marks);

// "White to move. White: king g1, pawns f2, g2. Black: ...".
std::string described(const rules::Position& position);

}  // namespace kairos::report
