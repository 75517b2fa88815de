// A slow, obvious twin of the rules: a board of 64 letters, every move tried and its king looked
// at.
//
// Shares no code with the part it checks, not even the FEN reader. Squares are 0..63 from a1, as in
// FEN letters are capitals for White; moves are plain triples. Sources: FIDE Laws, articles 3.1 to
// 3.10; SAN from the PGN standard, section 8.2.3.
#pragma once

#include <array>
#include <map>
#include <string>
#include <vector>

namespace kairos::oracles {

struct NaiveBoard {
  std::array<char, 64> men{};  // ' ' for an empty square
  bool white_to_move = true;
  std::string castling;  // letters of KQkq
  int en_passant = -1;   // square passed over by the last move, if that was a double step
  int halfmove_clock = 0;
  int fullmove_number = 1;
};

struct NaiveMove {
  int from = 0;
  int to = 0;
  char promotion = ' ';  // one of QRBN
  friend bool operator==(const NaiveMove&, const NaiveMove&) = default;
};

NaiveBoard naive_board(const std::string& fen);
// With the en passant square only when a capture is legal.
std::string naive_fen(const NaiveBoard& board);
bool naive_in_check(const NaiveBoard& board, bool white);
std::vector<NaiveMove> naive_moves(const NaiveBoard& board);
NaiveBoard naive_play(NaiveBoard board, const NaiveMove& move);
// "e2e4", "e7e8Q".
std::string naive_name(const NaiveMove& move);
std::string naive_san(const NaiveBoard& board, const NaiveMove& move);
// Every way to write each legal move with too little, just enough or too much to tell it apart,
// without marks; texts that fit several moves hold all of them.
std::map<std::string, std::vector<NaiveMove>> naive_texts(const NaiveBoard& board);

}  // namespace kairos::oracles
