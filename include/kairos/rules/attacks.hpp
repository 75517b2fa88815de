// Which squares a man attacks, for a given set of occupied squares, and the geometry of lines.
//
// Table look-ups only. Sliding attacks index one shared table by the occupied squares of the lines
// through a square: with the PEXT instruction where the build has it, else by multiplication with
// magic factors that the program finds for itself (see src/rules/attacks.cpp).
#pragma once

#include "kairos/rules/bitboard.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::rules {

Bitboard pawn_attacks(Color c, Square s);
Bitboard knight_attacks(Square s);
Bitboard king_attacks(Square s);
Bitboard bishop_attacks(Square s, Bitboard occupied);
Bitboard rook_attacks(Square s, Bitboard occupied);
Bitboard queen_attacks(Square s, Bitboard occupied);
// By a man other than a pawn.
Bitboard attacks_of(PieceType t, Square s, Bitboard occupied);

// Squares strictly between two squares on one line; empty when they share none.
Bitboard between(Square a, Square b);
// The whole line through two squares, ends included; empty when they share none.
Bitboard line_through(Square a, Square b);

// Men of both colours that attack `s` when `occupied` blocks the lines.
Bitboard attackers_to(const Position& p, Square s, Bitboard occupied);

}  // namespace kairos::rules
