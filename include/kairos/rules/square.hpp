// Squares, files and ranks of the board.
//
// A square is numbered 0..63: a1 = 0, b1 = 1, ... h1 = 7, a2 = 8, ... h8 = 63, so file = square % 8
// and rank = square / 8 (both 0..7). `no_square` (64) stands for "none" and must not index a table
// of 64.
#pragma once

#include <cstdint>
#include <string>

namespace kairos::rules {

// Plain, not a class, so that squares index tables and count on without casts at each use.
// clang-format off
enum Square : std::uint8_t {
  a1, b1, c1, d1, e1, f1, g1, h1,
  a2, b2, c2, d2, e2, f2, g2, h2,
  a3, b3, c3, d3, e3, f3, g3, h3,
  a4, b4, c4, d4, e4, f4, g4, h4,
  a5, b5, c5, d5, e5, f5, g5, h5,
  a6, b6, c6, d6, e6, f6, g6, h6,
  a7, b7, c7, d7, e7, f7, g7, h7,
  a8, b8, c8, d8, e8, f8, g8, h8,
  no_square
};
// clang-format on

inline constexpr int square_count = 64;

constexpr Square square_at(int file, int rank) {
  return static_cast<Square>(rank * 8 + file);
}
constexpr int file_of(Square s) {
  return s & 7;
}
constexpr int rank_of(Square s) {
  return s >> 3;
}
constexpr Square operator+(Square s, int step) {
  return static_cast<Square>(int{s} + step);
}
constexpr Square operator-(Square s, int step) {
  return static_cast<Square>(int{s} - step);
}
// The same square seen from the other side: a1 <-> a8.
constexpr Square mirrored(Square s) {
  return static_cast<Square>(s ^ 56);
}
constexpr bool is_dark(Square s) {
  return ((file_of(s) + rank_of(s)) & 1) == 0;
}

// "e4"; "-" for no_square, as FEN writes it.
inline std::string to_string(Square s) {
  if (s >= no_square) return "-";
  return {static_cast<char>('a' + file_of(s)), static_cast<char>('1' + rank_of(s))};
}

}  // namespace kairos::rules
