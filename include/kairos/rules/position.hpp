// A legal position: men, side to move, castling rights, en passant, counters, and a 64-bit key.
//
// Value type, trivially copyable: a search copies it and plays on the copy. A Position comes from
// `make_position` (setup.hpp), `parse_fen` (fen.hpp) or `Position::start()`; every other one comes
// from playing a legal move, so both kings are always there and the side not to move is never in
// check.
//
// The en passant square is kept only when an en passant capture is legal, so that equal keys mean
// "same position" in the sense of the FIDE Laws, article 9.2.3 (the key covers men, side, castling
// rights and that square, not the counters).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "kairos/rules/bitboard.hpp"
#include "kairos/rules/move.hpp"
#include "kairos/rules/piece.hpp"
#include "kairos/rules/setup.hpp"
#include "kairos/rules/square.hpp"

namespace kairos::rules {

using Key = std::uint64_t;

class Position {
 public:
  static const Position& start();

  [[nodiscard]] Color side_to_move() const { return side_; }
  [[nodiscard]] Bitboard occupied() const { return pieces(white) | pieces(black); }
  [[nodiscard]] Bitboard pieces(Color c) const { return sets_[color_sets + c]; }
  [[nodiscard]] Bitboard pieces(PieceType t) const { return sets_[t]; }
  [[nodiscard]] Bitboard pieces(Color c, PieceType t) const { return pieces(c) & pieces(t); }
  [[nodiscard]] Piece piece_on(Square s) const { return board_[s]; }
  // What stands on each square.
  [[nodiscard]] const std::array<Piece, square_count>& board() const { return board_; }
  [[nodiscard]] bool is_empty(Square s) const { return board_[s] == no_piece; }
  [[nodiscard]] Square king_square(Color c) const { return first(pieces(c, king)); }
  [[nodiscard]] std::uint8_t castling() const { return castling_; }
  // The target of a legal en passant capture, or no_square.
  [[nodiscard]] Square en_passant() const { return en_passant_; }
  [[nodiscard]] int halfmove_clock() const { return halfmove_clock_; }
  [[nodiscard]] int fullmove_number() const { return fullmove_number_; }
  [[nodiscard]] Key key() const { return key_; }

  // Men of the other side that give check to the side to move.
  [[nodiscard]] Bitboard checkers() const;
  [[nodiscard]] bool in_check() const { return checkers() != 0; }
  // Whether the (legal) move takes something, en passant included.
  [[nodiscard]] bool is_capture(Move m) const { return !is_empty(m.to()) || m.is_en_passant(); }
  // Whether the (legal) move checks the opponent.
  [[nodiscard]] bool gives_check(Move m) const;

  // The key after a legal move, for fetching memory ahead: exact but for moves that change castling
  // rights, castle, promote, or open or close the way to an en passant capture.
  [[nodiscard]] Key likely_key_after(Move m) const;

  // Plays a legal move, or null_move when not in check. Anything else breaks the position.
  void play(Move m);
  [[nodiscard]] Position after(Move m) const {
    Position next = *this;
    next.play(m);
    return next;
  }

  // Back to the unchecked form, for FEN and for editing.
  [[nodiscard]] Setup setup() const;

  friend bool operator==(const Position&, const Position&) = default;

 private:
  friend base::Result<Position> make_position(const Setup& setup);
  friend struct Mover;  // src/rules/mover.hpp: how a move changes the fields below
  Position() = default;

  static constexpr std::size_t color_sets = piece_type_count;

  // The men of each type, by PieceType, then those of each colour.
  std::array<Bitboard, piece_type_count + 2> sets_{};
  std::array<Piece, square_count> board_{};
  Key key_ = 0;
  Color side_ = white;
  std::uint8_t castling_ = no_castling;
  Square en_passant_ = no_square;
  std::uint16_t halfmove_clock_ = 0;
  std::uint16_t fullmove_number_ = 1;
};

}  // namespace kairos::rules
