// Which squares a man attacks, for a given set of occupied squares, and the geometry of lines.
//
// Table look-ups only, inline because everything above lives on them. Sliding attacks index one
// shared table by the occupied squares of the lines through a square: with the PEXT instruction
// where the build has it, else by multiplication with magic factors that the program finds for
// itself when it starts (src/rules/attacks.cpp). Squares must be real ones, never no_square.
// Thread-safe: the tables are written before main and only read afterwards.
#pragma once

#include <array>
#include <cstddef>

#include "kairos/rules/bitboard.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::rules {

namespace detail {

using SquareTable = std::array<Bitboard, square_count>;

extern const std::array<SquareTable, 2> pawn_attack_table;
extern const SquareTable knight_attack_table;
extern const SquareTable king_attack_table;
extern const std::array<SquareTable, piece_type_count> empty_board_table;
extern const std::array<SquareTable, square_count> between_table;
extern const std::array<SquareTable, square_count> line_table;

// One square's part of the shared table of sliding attacks.
struct Slider {
  Bitboard mask = 0;  // the squares whose occupation matters: its lines without their last squares
  const Bitboard* attacks = nullptr;
#ifndef __BMI2__
  Bitboard factor = 0;
  unsigned shift = 0;
#endif

  [[nodiscard]] std::size_t index_of(Bitboard occupied) const {
#ifdef __BMI2__
    return __builtin_ia32_pext_di(occupied, mask);
#else
    return (occupied & mask) * factor >> shift;
#endif
  }
  [[nodiscard]] Bitboard look_up(Bitboard occupied) const {
    return attacks[index_of(occupied)];
  }
};

struct Sliders {
  std::array<Slider, square_count> bishop;
  std::array<Slider, square_count> rook;
};
extern const Sliders sliders;

}  // namespace detail

inline Bitboard pawn_attacks(Color c, Square s) {
  return detail::pawn_attack_table[c][s];
}
inline Bitboard knight_attacks(Square s) {
  return detail::knight_attack_table[s];
}
inline Bitboard king_attacks(Square s) {
  return detail::king_attack_table[s];
}
inline Bitboard bishop_attacks(Square s, Bitboard occupied) {
  return detail::sliders.bishop[s].look_up(occupied);
}
inline Bitboard rook_attacks(Square s, Bitboard occupied) {
  return detail::sliders.rook[s].look_up(occupied);
}
inline Bitboard queen_attacks(Square s, Bitboard occupied) {
  return bishop_attacks(s, occupied) | rook_attacks(s, occupied);
}
// By a man other than a pawn.
Bitboard attacks_of(PieceType t, Square s, Bitboard occupied);
// The same on an empty board: with `between`, a cheap way to ask about two given squares.
inline Bitboard attacks_on_empty_board(PieceType t, Square s) {
  return detail::empty_board_table[t][s];
}

// Squares strictly between two squares on one line; empty when they share none.
inline Bitboard between(Square a, Square b) {
  return detail::between_table[a][b];
}
// The whole line through two squares, ends included; empty when they share none.
inline Bitboard line_through(Square a, Square b) {
  return detail::line_table[a][b];
}

// Bishops, rooks and queens of both colours that would attack `s` if nothing stood between.
inline Bitboard aligned_sliders(const Position& p, Square s) {
  const Bitboard queens = p.pieces(queen);
  return (attacks_on_empty_board(bishop, s) & (p.pieces(bishop) | queens)) |
         (attacks_on_empty_board(rook, s) & (p.pieces(rook) | queens));
}

// Men of both colours that stand alone between `s` and one of its aligned sliders of `side`.
inline Bitboard lone_blockers(const Position& p, Square s, Color side) {
  Bitboard blockers = 0;
  for (Bitboard sliders = aligned_sliders(p, s) & p.pieces(side); sliders != 0;) {
    const Bitboard men = between(s, take_first(sliders)) & p.occupied();
    if (!more_than_one(men)) blockers |= men;
  }
  return blockers;
}

// Men of both colours that attack `s` when `occupied` blocks the lines.
Bitboard attackers_to(const Position& p, Square s, Bitboard occupied);

// Whether no pawn of the other side stands before the pawn on `s`, on its file or beside.
bool is_passed(const Position& p, Square s);

}  // namespace kairos::rules
