// Diagrams: a position as SVG, seen from the side to move, with a description in words.
//
// The page must carry `diagram_definitions` once. Marks show what is known to everybody: the move
// that led here, and the move that was played where that is not the answer.
#pragma once

#include <string>

#include "kairos/rules/position.hpp"

namespace kairos::report {

struct Marks {
  rules::Move last;    // led to the position; its squares are marked
  rules::Move played;  // drawn as an arrow; leave it out where it is the answer
};

std::string diagram(const rules::Position& position, const Marks& marks);

// "White to move. White: king g1, pawns f2, g2. Black: ...".
std::string described(const rules::Position& position);

}  // namespace kairos::report
