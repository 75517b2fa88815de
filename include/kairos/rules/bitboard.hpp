// A set of squares as 64 bits: bit n is square n (square.hpp), so a1 is the lowest bit.
//
// Plain integers with named operations; nothing here allocates or branches on data. Shifts drop
// what leaves the board.
#pragma once

#include <bit>
#include <cstdint>

#include "kairos/rules/piece.hpp"
#include "kairos/rules/square.hpp"

namespace kairos::rules {

using Bitboard = std::uint64_t;

inline constexpr Bitboard file_a = 0x0101010101010101;
inline constexpr Bitboard file_h = file_a << 7;
inline constexpr Bitboard rank_1 = 0xFF;
inline constexpr Bitboard rank_8 = rank_1 << 56;
inline constexpr Bitboard dark_squares = 0xAA55AA55AA55AA55;  // a1 is dark

constexpr Bitboard bit(Square s) {
  return Bitboard{1} << s;
}
constexpr Bitboard file_mask(int file) {
  return file_a << file;
}
constexpr Bitboard rank_mask(int rank) {
  return rank_1 << (8 * rank);
}
constexpr bool contains(Bitboard set, Square s) {
  return (set >> s & 1) != 0;
}
constexpr int count(Bitboard set) {
  return std::popcount(set);
}
constexpr bool more_than_one(Bitboard set) {
  return (set & (set - 1)) != 0;
}
// The lowest square of a set that is not empty.
constexpr Square first(Bitboard set) {
  return static_cast<Square>(std::countr_zero(set));
}
constexpr Square take_first(Bitboard& set) {
  const Square s = first(set);
  set &= set - 1;
  return s;
}

constexpr Bitboard north(Bitboard set) {
  return set << 8;
}
constexpr Bitboard south(Bitboard set) {
  return set >> 8;
}
constexpr Bitboard east(Bitboard set) {
  return (set & ~file_h) << 1;
}
constexpr Bitboard west(Bitboard set) {
  return (set & ~file_a) >> 1;
}
// The difference in number between a square and the one before it, on a pawn's way.
constexpr int pawn_step(Color c) {
  return c == white ? 8 : -8;
}
// 0..7 from a player's own side: a pawn starts on 1 and promotes on 7.
constexpr int rank_seen_by(Color c, Square s) {
  return rank_of(s) ^ (c == white ? 0 : 7);
}
// One step toward the opponent.
constexpr Bitboard forward(Color c, Bitboard set) {
  return c == white ? north(set) : south(set);
}

}  // namespace kairos::rules
