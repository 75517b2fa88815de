#include "kairos/rules/movegen.hpp"

#include "generator.hpp"
#include "legality.hpp"

namespace kairos::rules {

namespace {

template <Color us>
void list_sorted(const Position& p, MoveList& list, Moves sort) {
  ListSink sink(list);
  switch (sort) {
    case Moves::all:
      return Generator<us, Moves::all, ListSink>(p, sink).run();
    case Moves::noisy:
      return Generator<us, Moves::noisy, ListSink>(p, sink).run();
    case Moves::quiet:
      return Generator<us, Moves::quiet, ListSink>(p, sink).run();
  }
}

}  // namespace

void legal_moves(const Position& p, MoveList& list, Moves sort) {
  if (p.side_to_move() == white) {
    list_sorted<white>(p, list, sort);
  } else {
    list_sorted<black>(p, list, sort);
  }
}

int count_legal_moves(const Position& p) {
  return p.side_to_move() == white ? count_moves<white>(p) : count_moves<black>(p);
}

bool has_legal_move(const Position& p) {
  return count_legal_moves(p) != 0;
}

Castling castling_state(const Position& p, Square to) {
  const Color us = p.side_to_move();
  const Square home = us == white ? e1 : e8;
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

bool pawn_reaches(const Position& p, Square from, Square to) {
  const Color us = p.side_to_move();
  if (contains(pawn_attacks(us, from), to)) return contains(p.pieces(~us), to);
  const int step = us == white ? 8 : -8;
  if (!p.is_empty(to)) return false;
  if (to == from + step) return true;
  return rank_of(from) == (us == white ? 1 : 6) && to == from + 2 * step && p.is_empty(from + step);
}

bool special_is_legal(const Position& p, Move m, PieceType t) {
  const Color us = p.side_to_move();
  if (m.is_castling()) {
    const Square home = us == white ? e1 : e8;
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
