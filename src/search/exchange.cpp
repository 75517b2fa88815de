#include "exchange.hpp"

#include <array>

#include "kairos/rules/attacks.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/search/settled.hpp"

// Both sides take on the square with their least valuable man in turn; behind a man that leaves,
// sliders come into play. A side stops when going on would lose, so the value is found by folding
// the list of gains from its end. `exchange_at_least` needs no list: it follows the balance against
// the threshold and stops as soon as one side cannot get back over it.

namespace kairos::search {

using rules::bit;
using rules::Bitboard;
using rules::Color;
using rules::Move;
using rules::PieceType;
using rules::Position;
using rules::Square;

namespace {

// A king that takes into a guarded square would be lost; no gain is worth it.
constexpr Score king_value = 20000;

Score man_value(PieceType t) {
  return t == rules::king ? king_value : nominal_values[t];
}

// The men that still may take on one square.
class Attackers {
 public:
  Attackers(const Position& position, Square target, Bitboard occupied)
      : position_(position), target_(target), occupied_(occupied) {
    attackers_ = rules::attackers_to(position, target, occupied) & occupied;
    diagonal_ = position.pieces(rules::bishop) | position.pieces(rules::queen);
    straight_ = position.pieces(rules::rook) | position.pieces(rules::queen);
  }

  // Takes the least valuable attacker of `side` off the board; no_piece_type when there is none.
  PieceType next(Color side) {
    Bitboard own = attackers_ & position_.pieces(side);
    if (own == 0) return rules::no_piece_type;
    own &= ~pinned(side, own);
    if (own == 0) return rules::no_piece_type;
    for (int t = rules::pawn; t < rules::king; ++t) {
      const Bitboard men = own & position_.pieces(static_cast<PieceType>(t));
      if (men == 0) continue;
      remove(rules::first(men), static_cast<PieceType>(t));
      return static_cast<PieceType>(t);
    }
    // The king takes last, and only what nobody guards.
    if ((attackers_ & position_.pieces(~side)) != 0) return rules::no_piece_type;
    remove(rules::first(own), rules::king);
    return rules::king;
  }

 private:
  void remove(Square from, PieceType type) {
    occupied_ ^= bit(from);
    if (type == rules::pawn || type == rules::bishop || type == rules::queen) {
      attackers_ |= rules::bishop_attacks(target_, occupied_) & diagonal_;
    }
    if (type == rules::rook || type == rules::queen) {
      attackers_ |= rules::rook_attacks(target_, occupied_) & straight_;
    }
    attackers_ &= occupied_;
  }

  // Sliders on a line with the king of `side`, whatever stands between; found once.
  [[nodiscard]] Bitboard snipers_at(Color side) {
    if (!snipers_known_[side]) {
      snipers_[side] =
          rules::aligned_sliders(position_, position_.king_square(side)) & position_.pieces(~side);
      snipers_known_[side] = true;
    }
    return snipers_[side] & occupied_;
  }

  // Those of `candidates` that a slider still standing pins against their king, the target being
  // off the line.
  [[nodiscard]] Bitboard pinned(Color side, Bitboard candidates) {
    const Square king = position_.king_square(side);
    Bitboard snipers = snipers_at(side);
    Bitboard result = 0;
    while (snipers != 0) {
      const Square sniper = rules::take_first(snipers);
      if (sniper == target_) continue;
      const Bitboard men = rules::between(king, sniper) & (occupied_ | bit(target_));
      if (men == 0 || rules::more_than_one(men) || (men & candidates) == 0) continue;
      if (!rules::contains(rules::line_through(king, sniper), target_)) result |= men;
    }
    return result;
  }

  const Position& position_;
  Square target_;
  Bitboard occupied_;
  Bitboard attackers_ = 0;
  Bitboard diagonal_ = 0;
  Bitboard straight_ = 0;
  std::array<Bitboard, 2> snipers_{};
  std::array<bool, 2> snipers_known_{};
};

// The first move: what it wins at once, what then stands on the square, and who is left.
struct FirstMove {
  Score gain;
  PieceType standing;
  Bitboard occupied;
};

FirstMove first_move_of(const Position& p, Move m) {
  const PieceType mover = rules::type_of(p.piece_on(m.from()));
  FirstMove result{0, mover, p.occupied() ^ bit(m.from())};
  if (m.is_en_passant()) {
    result.gain = nominal_values[rules::pawn];
    const int back = p.side_to_move() == rules::white ? -8 : 8;
    result.occupied ^= bit(m.to() + back);
  } else if (!p.is_empty(m.to())) {
    result.gain = nominal_values[rules::type_of(p.piece_on(m.to()))];
  }
  if (m.is_promotion()) {
    result.gain += nominal_values[m.promoted()] - nominal_values[rules::pawn];
    result.standing = m.promoted();
  }
  return result;
}

}  // namespace

Score exchange_value(const Position& position, Move move) {
  if (move.is_castling()) return 0;
  const FirstMove first = first_move_of(position, move);
  Attackers attackers(position, move.to(), first.occupied & ~bit(move.to()));
  std::array<Score, 40> gains{};
  std::size_t n = 0;
  gains[0] = first.gain;
  PieceType standing = first.standing;
  Color side = ~position.side_to_move();
  for (;;) {
    const PieceType taker = attackers.next(side);
    if (taker == rules::no_piece_type) break;
    ++n;
    gains[n] = man_value(standing) - gains[n - 1];
    standing = taker;
    side = ~side;
  }
  for (; n > 0; --n) {
    // The taker at n may leave it: then the side before keeps what it has.
    gains[n - 1] = -std::max(-gains[n - 1], gains[n]);
  }
  return gains[0];
}

bool exchange_at_least(const Position& position, Move move, Score threshold) {
  if (move.is_castling()) return threshold <= 0;
  const FirstMove first = first_move_of(position, move);
  Score balance = first.gain - threshold;
  if (balance < 0) return false;
  balance -= man_value(first.standing);
  if (balance >= 0) return true;
  Attackers attackers(position, move.to(), first.occupied & ~bit(move.to()));
  const Color us = position.side_to_move();
  Color side = ~us;
  for (;;) {
    const PieceType taker = attackers.next(side);
    if (taker == rules::no_piece_type) break;
    side = ~side;
    // Seen from the side now to take: what it gets if the taker is lost at once.
    balance = -balance - 1 - man_value(taker);
    if (balance >= 0) break;
  }
  return side != us;
}

}  // namespace kairos::search
