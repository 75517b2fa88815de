// Single moves put to the test: castling step by step, and any 16-bit pattern.
//
// Nothing is assumed of a pattern, since it may come from a table under another position's key or
// from a damaged file: first that there is an own man to move and no own man in its way, then that
// a man of its kind goes that way, and last that the king is safe afterwards. Covered by
// tests/rules/movegen_test.cpp, which tries all 65536 patterns against the generated moves.
#include "legality.hpp"

#include "kairos/rules/movegen.hpp"

namespace kairos::rules {

// FIDE Laws, 3.8.2: what prevents castling for good (the right) and what for the moment.
Castling castling_state(const Position& p, Square to) {
  const Color us = p.side_to_move();
  const Square home = king_home(us);
  const bool is_short = to > home;
  const int right = (is_short ? white_short : white_long) << (us == white ? 0 : 2);
  if ((p.castling() & right) == 0) return Castling::no_right;
  const Square rook_home = is_short ? home + 3 : home - 4;
  if ((between(home, rook_home) & p.occupied()) != 0) return Castling::blocked;
  if (p.in_check()) return Castling::in_check;
  for (const Square s : {is_short ? home + 1 : home - 1, to}) {
    if (is_attacked(p, us, s, p.occupied(), p.pieces(~us))) return Castling::through_check;
  }
  return Castling::legal;
}

namespace {

// Whether a pawn's step or capture goes there, en passant left out.
bool pawn_reaches(const Position& p, Square from, Square to) {
  const Color us = p.side_to_move();
  if (contains(pawn_attacks(us, from), to)) return contains(p.pieces(~us), to);
  const int step = pawn_step(us);
  if (!p.is_empty(to)) return false;
  if (to == from + step) return true;
  return rank_seen_by(us, from) == 1 && to == from + 2 * step && p.is_empty(from + step);
}

// Castling and en passant; false for the codes that mean nothing.
bool special_is_legal(const Position& p, Move m, PieceType t) {
  const Color us = p.side_to_move();
  if (m.is_castling()) {
    const Square home = king_home(us);
    return t == king && m.from() == home && (m.to() == home + 2 || m.to() == home - 2) &&
           castling_state(p, m.to()) == Castling::legal;
  }
  if (!m.is_en_passant() || t != pawn || m.to() != p.en_passant()) return false;
  if (!contains(pawn_attacks(us, m.from()), m.to())) return false;
  return en_passant_is_safe(p, us, m.from(), m.to());
}

}  // namespace

bool is_legal(const Position& p, Move m) {
  const Color us = p.side_to_move();
  const Square from = m.from(), to = m.to();
  if (!contains(p.pieces(us), from) || contains(p.pieces(us), to)) {
    return false;
  }
  const PieceType t = type_of(p.piece_on(from));
  // Promotion codes above the queen's and the unused third code are not moves.
  if (m.is_promotion() ? m.promoted() > queen : m != Move::normal(from, to)) {
    return special_is_legal(p, m, t);
  }
  if (t == king) {
    return !m.is_promotion() && contains(king_attacks(from), to) && king_may_step(p, to);
  }
  const bool promotes = t == pawn && contains(rank_1 | rank_8, to);
  if (m.is_promotion() != promotes) return false;
  const bool reaches =
      t == pawn ? pawn_reaches(p, from, to) : contains(attacks_of(t, from, p.occupied()), to);
  return reaches && king_is_safe_after(p, from, to);
}

}  // namespace kairos::rules
