// Whether one given move is legal, without generating the others.
//
// A move of a man that attacks its target is legal when the king is safe afterwards. That is tested
// on the occupied squares as they will be, so pins, checks met and checks missed are all one case.
#pragma once

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::rules {

// Men of the side not to move that attack `s` on a board so occupied; men on squares that are not
// occupied do not count.
inline Bitboard enemies_attacking(const Position& p, Square s, Bitboard occupied) {
  return attackers_to(p, s, occupied) & p.pieces(~p.side_to_move()) & occupied;
}

// For any man but the king, and not en passant.
inline bool king_is_safe_after(const Position& p, Square from, Square to) {
  const Color us = p.side_to_move();
  const Bitboard occupied = (p.occupied() & ~bit(from)) | bit(to);
  return (enemies_attacking(p, p.king_square(us), occupied) & ~bit(to)) == 0;
}

inline bool king_may_step(const Position& p, Square to) {
  const Bitboard lifted = p.occupied() & ~bit(p.king_square(p.side_to_move()));
  return (enemies_attacking(p, to, lifted) & ~bit(to)) == 0;
}

// Why castling is or is not legal; `to` is the king's target, g1, c1, g8 or c8.
enum class Castling : std::uint8_t { legal, no_right, blocked, in_check, through_check };
Castling castling_state(const Position& p, Square to);

}  // namespace kairos::rules
