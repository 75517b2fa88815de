// What limits the legal moves of a side: where its king may not go, which men are pinned, and how a
// check can be met.
//
// The king is taken off the board before the enemy's attacks are counted, so it cannot flee along
// the line of a check. All pins along ranks and files share one set, all along diagonals another.
// That is enough: a man pinned on one line through the king can reach no square of a second such
// line by a move of the same kind, since that line is either the same one, with the king between,
// or runs parallel to the man's way.
#pragma once

#include "kairos/rules/position.hpp"

#include "mover.hpp"
#include "piece_sets.hpp"

namespace kairos::rules {

// A set moved by the step of a pawn's move or capture.
template <int step>
constexpr Bitboard shifted(Bitboard set) {
  if constexpr (step == 7 || step == -9) set &= ~file_a;
  if constexpr (step == 9 || step == -7) set &= ~file_h;
  if constexpr (step > 0) {
    return set << step;
  } else {
    return set >> -step;
  }
}

// The knights and sliders among `men`; pawns and king, whose moves depend on colour and safety, are
// left out.
inline PieceSets piece_sets_of(const Position& p, Bitboard men) {
  const Bitboard queens = p.pieces(queen);
  return {p.pieces(knight) & men, (p.pieces(bishop) | queens) & men,
          (p.pieces(rook) | queens) & men};
}

// Every square that `side` attacks.
template <Color side>
[[gnu::always_inline]] inline Bitboard attacked_by(const Position& p, Bitboard occupied) {
  const Bitboard men = p.pieces(side), pawns = p.pieces(pawn) & men;
  return attacks_of(piece_sets_of(p, men), occupied) | shifted<up<side> + 1>(pawns) |
         shifted<up<side> - 1>(pawns) | king_attacks(p.king_square(side));
}

template <Color us>
struct PinsAndChecks {
  Square king_square;
  Bitboard attacked;  // by the enemy, our king lifted off
  Bitboard checkers;
  Bitboard answers = ~Bitboard{0};  // where a man other than the king may go, in view of a check
  Bitboard straight_pins = 0;       // between king and pinning man, that man included
  Bitboard diagonal_pins = 0;

  [[gnu::always_inline]] explicit PinsAndChecks(const Position& p)
      : king_square(p.king_square(us)),
        attacked(attacked_by<~us>(p, p.occupied() ^ bit(king_square))) {
    const Bitboard enemies = p.pieces(~us);
    checkers = enemies & ((knight_attacks(king_square) & p.pieces(knight)) |
                          (pawn_attacks(us, king_square) & p.pieces(pawn)));
    const PieceSets crowd = piece_sets_of(p, enemies);
    sort(p, bishop_attacks(king_square, enemies) & crowd.diagonal, diagonal_pins);
    sort(p, rook_attacks(king_square, enemies) & crowd.straight, straight_pins);
    if (checkers == 0) return;
    answers = checkers;
    if (!more_than_one(checkers)) answers |= between(king_square, first(checkers));
  }

 private:
  // Sorts enemy men that look at the king, through our men, into checks and pins.
  [[gnu::always_inline]] void sort(const Position& p, Bitboard snipers, Bitboard& pins) {
    while (snipers != 0) {
      const Square s = take_first(snipers);
      const Bitboard path = between(king_square, s);
      const Bitboard blockers = path & p.pieces(us);
      if (blockers == 0) {
        checkers |= bit(s);
      } else if (!more_than_one(blockers)) {
        pins |= path | bit(s);
      }
    }
  }
};

}  // namespace kairos::rules
