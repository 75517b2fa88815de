// The phase of a game that a position belongs to, by its men and the number of the move.
//
// An ending has at most 26 points of pieces on the board (queen 9, rook 5, minor 3), both sides
// together; before move 11 it is the opening, else the middlegame. Counting points is common
// practice, the bounds are ours. Pure.
#pragma once

#include <cstdint>

#include "kairos/rules/position.hpp"

namespace kairos::study {

enum class Phase : std::uint8_t { opening, middlegame, ending };
Phase phase_of(const rules::Position& position);

}  // namespace kairos::study
