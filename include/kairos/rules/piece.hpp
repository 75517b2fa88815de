// Colours, kinds of men and coloured pieces.
//
// A Piece is its PieceType plus 8 when black, so both parts come out by mask and shift. Letters are
// those of FEN (PGN standard 16.1.3.1): PNBRQK for White, pnbrqk for Black.
#pragma once

#include <cstdint>
#include <string_view>

namespace kairos::rules {

enum Color : std::uint8_t { white, black };
constexpr Color operator~(Color c) {
  return static_cast<Color>(c ^ 1);
}

// In the order of their worth; other code counts on pawn first and king last.
enum PieceType : std::uint8_t { pawn, knight, bishop, rook, queen, king, no_piece_type };
inline constexpr int piece_type_count = 6;

// Bit 3 is the colour. `no_piece` has the type no_piece_type, so that code may ask the type of any
// square's contents.
enum Piece : std::uint8_t {
  white_pawn,
  white_knight,
  white_bishop,
  white_rook,
  white_queen,
  white_king,
  black_pawn = 8,
  black_knight,
  black_bishop,
  black_rook,
  black_queen,
  black_king,
  no_piece = 14
};

constexpr Piece make_piece(Color c, PieceType t) {
  return static_cast<Piece>(t | (c << 3));
}
constexpr PieceType type_of(Piece p) {
  return static_cast<PieceType>(p & 7);
}
constexpr Color color_of(Piece p) {
  return static_cast<Color>(p >> 3);
}

inline constexpr std::string_view piece_letters = "PNBRQK? pnbrqk? ";
constexpr char letter_of(Piece p) {
  return piece_letters[p];
}
// The piece of a FEN letter; no_piece for any other character.
constexpr Piece piece_of_letter(char letter) {
  for (int p = white_pawn; p <= black_king; ++p) {
    if (piece_letters[static_cast<std::size_t>(p)] == letter && letter != '?' && letter != ' ') {
      return static_cast<Piece>(p);
    }
  }
  return no_piece;
}

}  // namespace kairos::rules
