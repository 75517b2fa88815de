// The parts of Position that are not plain look-ups. How a move changes it is in mover.hpp.
#include "kairos/rules/position.hpp"

#include "kairos/rules/attacks.hpp"

#include "mover.hpp"

namespace kairos::rules {

// Built from the rule "pieces in this order, pawns before them" rather than from a FEN, so that the
// FEN reader can be tested against it.
const Position& Position::start() {
  static const Position position = [] {
    constexpr std::array<PieceType, 8> back{rook, knight, bishop, queen,
                                            king, bishop, knight, rook};
    Setup setup;
    setup.castling = all_castling;
    for (int file = 0; file < 8; ++file) {
      const PieceType t = back[static_cast<std::size_t>(file)];
      setup.board[square_at(file, 0)] = make_piece(white, t);
      setup.board[square_at(file, 1)] = white_pawn;
      setup.board[square_at(file, 6)] = black_pawn;
      setup.board[square_at(file, 7)] = make_piece(black, t);
    }
    return make_position(setup).value();
  }();
  return position;
}

Bitboard Position::checkers() const {
  return attackers_to(*this, king_square(side_), occupied()) & pieces(~side_);
}

void Position::play(Move m) {
  if (m == null_move) {
    Mover::pass(*this);
  } else if (side_ == white) {
    Mover::play<white>(*this, m);
  } else {
    Mover::play<black>(*this, m);
  }
}

// A check comes from the man that arrives, from the castling rook, or from a slider whose line the
// move opens; the last is seen by looking from the enemy king on the board as it will be.
bool Position::gives_check(Move m) const {
  const Square from = m.from(), to = m.to(), enemy_king = king_square(~side_);
  const PieceType arriving = m.is_promotion() ? m.promoted() : type_of(board_[from]);
  Bitboard after = (occupied() & ~bit(from)) | bit(to);
  if (arriving == pawn ? contains(pawn_attacks(side_, to), enemy_king)
                       : contains(attacks_of(arriving, to, after), enemy_king)) {
    return true;
  }
  if (m.is_castling()) {
    const Square rook_to = file_of(to) == 6 ? to - 1 : to + 1;
    return contains(rook_attacks(rook_to, after), enemy_king);
  }
  // The pawn taken en passant opens lines too.
  if (m.is_en_passant()) after ^= bit(square_at(file_of(to), rank_of(from)));
  const Bitboard sliders_left = pieces(side_) & ~bit(from);
  const Bitboard queens = pieces(queen);
  return (bishop_attacks(enemy_king, after) & sliders_left & (pieces(bishop) | queens)) != 0 ||
         (rook_attacks(enemy_king, after) & sliders_left & (pieces(rook) | queens)) != 0;
}

Key Position::likely_key_after(Move m) const {
  const Square from = m.from(), to = m.to();
  const Piece man = board_[from];
  return key_ ^ keys.black_to_move ^ keys.man[man][from] ^ keys.man[man][to] ^
         keys.man[board_[to]][to] ^ keys.en_passant[en_passant_];
}

Setup Position::setup() const {
  Setup setup;
  setup.board = board_;
  setup.side_to_move = side_;
  setup.castling = castling_;
  setup.en_passant = en_passant_;
  setup.halfmove_clock = halfmove_clock_;
  setup.fullmove_number = fullmove_number_;
  return setup;
}

}  // namespace kairos::rules
