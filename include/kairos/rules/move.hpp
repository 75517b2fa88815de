// A move in 16 bits: from (6 bits), to (6 bits) and what is special about it (4 bits).
//
// Castling is the king's own step of two squares (e1g1). A Move says nothing about captures; the
// position knows. `Move{}` is "no move"; `null_move` passes the turn and exists for variations in
// PGN and for the searcher, never among legal moves.
#pragma once

#include <cstdint>

#include "kairos/rules/piece.hpp"
#include "kairos/rules/square.hpp"

namespace kairos::rules {

class Move {
 public:
  constexpr Move() = default;
  static constexpr Move normal(Square from, Square to) { return {from, to, 0}; }
  static constexpr Move en_passant(Square from, Square to) { return {from, to, en_passant_code}; }
  static constexpr Move castling(Square from, Square to) { return {from, to, castling_code}; }
  static constexpr Move promotion(Square from, Square to, PieceType to_type) {
    return {from, to, promotion_code + (to_type - knight)};
  }
  // The 16 bits as stored in tables and ledgers; the inverse of raw().
  static constexpr Move from_raw(std::uint16_t raw) {
    Move m;
    m.raw_ = raw;
    return m;
  }

  [[nodiscard]] constexpr Square from() const { return static_cast<Square>(raw_ & 63); }
  [[nodiscard]] constexpr Square to() const { return static_cast<Square>(raw_ >> 6 & 63); }
  [[nodiscard]] constexpr bool is_en_passant() const { return code() == en_passant_code; }
  [[nodiscard]] constexpr bool is_castling() const { return code() == castling_code; }
  [[nodiscard]] constexpr bool is_promotion() const { return code() >= promotion_code; }
  // What the pawn becomes; only of a promotion.
  [[nodiscard]] constexpr PieceType promoted() const {
    return static_cast<PieceType>(code() - promotion_code + knight);
  }
  [[nodiscard]] constexpr std::uint16_t raw() const { return raw_; }
  // False for "no move" only.
  explicit constexpr operator bool() const { return raw_ != 0; }
  friend constexpr bool operator==(Move, Move) = default;

 private:
  static constexpr int en_passant_code = 1, castling_code = 2, promotion_code = 4;

  constexpr Move(Square from, Square to, int code)
      : raw_(static_cast<std::uint16_t>(from | to << 6 | code << 12)) {}
  [[nodiscard]] constexpr int code() const { return raw_ >> 12; }

  std::uint16_t raw_ = 0;
};

// b1b1: from and to equal, which no legal move has.
inline constexpr Move null_move = Move::normal(b1, b1);

}  // namespace kairos::rules
