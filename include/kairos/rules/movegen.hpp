// Legal moves (FIDE Laws, articles 3 and 5), generated legal: no move is made and taken back to
// test it.
//
// Order is deterministic but not promised. A MoveList lives on the stack; 218 is the most legal
// moves known in a position reachable by play, so 256 is room enough.
//
//   MoveList moves;
//   legal_moves(position, moves);
//   for (const Move m : moves) {
//     Position next = position;
//     next.play(m);
//     ...
//   }
//
// Thread-safe: nothing is kept between calls.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "kairos/rules/move.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::rules {

class MoveList {
 public:
  MoveList() {}  // not "= default": that would have to fill the moves
  void push(Move m) { moves_[size_++] = m; }
  void clear() { size_ = 0; }
  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] bool empty() const { return size_ == 0; }
  Move& operator[](std::size_t i) { return moves_[i]; }
  const Move& operator[](std::size_t i) const { return moves_[i]; }
  Move* begin() { return moves_.data(); }
  Move* end() { return moves_.data() + size_; }
  [[nodiscard]] const Move* begin() const { return moves_.data(); }
  [[nodiscard]] const Move* end() const { return moves_.data() + size_; }

 private:
  union {  // keeps the moves from being zeroed at every node of a search
    std::array<Move, 256> moves_;
  };
  std::size_t size_ = 0;
};

enum class Moves : std::uint8_t {
  all,
  noisy,  // captures, en passant included, and promotions of every kind
  quiet,  // all others
};

// Appends the legal moves of the wanted sort to `list`.
void legal_moves(const Position& p, MoveList& list, Moves sort = Moves::all);
// How many legal moves there are, counted without listing them.
int count_legal_moves(const Position& p);
bool has_legal_move(const Position& p);
// Whether any 16-bit move, however it came about, is legal here.
bool is_legal(const Position& p, Move m);

}  // namespace kairos::rules
