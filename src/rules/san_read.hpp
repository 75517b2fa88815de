// The steps of reading a move text that its explanation needs too.
#pragma once

#include "kairos/rules/bitboard.hpp"
#include "kairos/rules/position.hpp"

#include "san_text.hpp"

namespace kairos::rules {

// The squares that the text allows as the start.
inline Bitboard allowed_starts(const MoveText& text) {
  Bitboard set = ~Bitboard{0};
  if (text.from_file >= 0) set &= file_mask(text.from_file);
  if (text.from_rank >= 0) set &= rank_mask(text.from_rank);
  return set;
}

// The square that the castling king goes to.
Square castling_target(const Position& p, bool is_short);
// Where the pawn comes from that the text means, or no_square: behind the target for a step, beside
// that for a capture.
Square pawn_start(const Position& p, const MoveText& text);

}  // namespace kairos::rules
