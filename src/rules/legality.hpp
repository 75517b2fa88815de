// Whether one given move is legal, without generating the others.
//
// A move of a man that attacks its target is legal when the king is safe afterwards. That is tested
// on the squares as they will be, so pins, checks met and checks missed are all one case.
#pragma once

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::rules {

// Whether any of `enemies`, men of the side not `us`, attacks `s` when `occupied` blocks the lines.
// Looks at the men that could reach the square on an empty board, most often none, one by one: the
// tables for that are small, and a single question does not bring the large ones into the cache.
inline bool is_attacked(const Position& p, Color us, Square s, Bitboard occupied,
                        Bitboard enemies) {
  const Bitboard near = (attacks_on_empty_board(knight, s) & p.pieces(knight)) |
                        (attacks_on_empty_board(king, s) & p.pieces(king)) |
                        (pawn_attacks(us, s) & p.pieces(pawn));
  if ((near & enemies) != 0) return true;
  Bitboard far = enemies & aligned_sliders(p, s);
  while (far != 0) {
    if ((between(s, take_first(far)) & occupied) == 0) return true;
  }
  return false;
}

// For any man but the king, and not en passant.
inline bool king_is_safe_after(const Position& p, Square from, Square to) {
  const Color us = p.side_to_move();
  const Bitboard occupied = (p.occupied() & ~bit(from)) | bit(to);
  return !is_attacked(p, us, p.king_square(us), occupied, p.pieces(~us) & ~bit(to));
}

// Both pawns leave their squares at once, which no test of pins foresees: on a rank shared with the
// king they may be all that stands between it and a rook.
inline bool en_passant_is_safe(const Position& p, Color us, Square from, Square to) {
  const Bitboard taken = bit(square_at(file_of(to), rank_of(from)));
  const Bitboard occupied = p.occupied() ^ bit(from) ^ bit(to) ^ taken;
  return !is_attacked(p, us, p.king_square(us), occupied, p.pieces(~us) & ~taken);
}

// Whether `us` has a legal capture onto the square passed over by the last double step.
inline bool en_passant_is_legal(const Position& p, Color us, Square to) {
  for (Bitboard pawns = pawn_attacks(~us, to) & p.pieces(us, pawn); pawns != 0;) {
    if (en_passant_is_safe(p, us, take_first(pawns), to)) return true;
  }
  return false;
}

// The king is lifted off, so that it does not hide behind itself.
inline bool king_may_step(const Position& p, Square to) {
  const Color us = p.side_to_move();
  const Bitboard lifted = p.occupied() & ~p.pieces(us, king);
  return !is_attacked(p, us, to, lifted, p.pieces(~us) & ~bit(to));
}

constexpr Square king_home(Color c) {
  return c == white ? e1 : e8;
}

// Why castling is or is not legal; `to` is the king's target, g1, c1, g8 or c8.
enum class Castling : std::uint8_t { legal, no_right, blocked, in_check, through_check };
Castling castling_state(const Position& p, Square to);

}  // namespace kairos::rules
