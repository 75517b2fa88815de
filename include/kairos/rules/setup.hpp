// A Setup is a position that nobody has checked: what a FEN or a board editor says, sense or
// nonsense.
//
// `faults_of` lists everything that keeps it from being a position of a game of chess; only
// `make_position` turns a Setup into a Position (position.hpp), and only when that list is empty.
// Counters are as in FEN: halfmove clock in plies since a pawn move or capture, move number from 1.
//
//   Setup setup;                        // an empty board, White to move
//   setup.board[e1] = white_king;
//   setup.board[e8] = black_king;
//   Result<Position> p = make_position(setup);
#pragma once

#include <array>
#include <cstdint>

#include "kairos/base/result.hpp"
#include "kairos/rules/piece.hpp"
#include "kairos/rules/square.hpp"

namespace kairos::rules {

// A set of castling rights, one bit each.
enum CastlingRight : std::uint8_t {
  no_castling = 0,
  white_short = 1,
  white_long = 2,
  black_short = 4,
  black_long = 8,
  all_castling = 15
};

struct Setup {
  std::array<Piece, square_count> board = filled_with_no_piece();
  Color side_to_move = white;
  std::uint8_t castling = no_castling;
  Square en_passant = no_square;  // the square passed over, after any double step
  int halfmove_clock = 0;
  int fullmove_number = 1;

 private:
  static constexpr std::array<Piece, square_count> filled_with_no_piece() {
    std::array<Piece, square_count> board{};
    board.fill(no_piece);
    return board;
  }
};

class Position;

// Those of the setup's castling rights whose king and rook stand at home.
std::uint8_t possible_castling(const Setup& setup);
// Whether the last move can have been a double step over the setup's en passant square.
bool en_passant_is_possible(const Setup& setup);

// Every reason why the setup is not a legal position, in a fixed order; empty when it is one.
base::Faults faults_of(const Setup& setup);
base::Result<Position> make_position(const Setup& setup);

}  // namespace kairos::rules
