// Which moves of one position give check: worked out once, then asked of many moves.
//
// Holds the squares from which each kind of man would check the enemy king, and the own men that
// stand alone between that king and an own slider. `given_by` says the same as
// Position::gives_check for every legal move, a few instructions a move. Refers to the position,
// which must outlive it unchanged.
#pragma once

#include <array>

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::rules {

class Checks {
 public:
  explicit Checks(const Position& p) : position_(p), enemy_king_(p.king_square(~p.side_to_move())) {
    const Color us = p.side_to_move();
    const Bitboard occupied = p.occupied();
    from_[pawn] = pawn_attacks(~us, enemy_king_);
    from_[knight] = knight_attacks(enemy_king_);
    from_[bishop] = bishop_attacks(enemy_king_, occupied);
    from_[rook] = rook_attacks(enemy_king_, occupied);
    from_[queen] = from_[bishop] | from_[rook];
    openers_ = lone_blockers(p, enemy_king_, us) & p.pieces(us);
  }

  // Whether the (legal) move checks the opponent. On the squares as they are now: a man that checks
  // along a line cannot have come along it, or the king would be in check already. Only where two
  // men leave their squares or the man changes are the squares as they will be looked at.
  [[nodiscard]] bool given_by(Move m) const {
    const Square from = m.from(), to = m.to();
    if (m != Move::normal(from, to)) return position_.gives_check(m);
    if (contains(from_[type_of(position_.piece_on(from))], to)) return true;
    return contains(openers_, from) && !contains(line_through(enemy_king_, from), to);
  }

 private:
  const Position& position_;
  Square enemy_king_;
  std::array<Bitboard, piece_type_count> from_{};  // that of the king stays empty
  Bitboard openers_ = 0;
};

}  // namespace kairos::rules
