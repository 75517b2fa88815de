// What a move text says, before anyone asks whether the board agrees.
#pragma once

#include <cstdint>
#include <string_view>

#include "kairos/rules/piece.hpp"
#include "kairos/rules/square.hpp"

namespace kairos::rules {

struct MoveText {
  enum class Kind : std::uint8_t { unreadable, man, short_castling, long_castling, null };

  Kind kind = Kind::unreadable;
  PieceType man = pawn;  // no_piece_type: none named and the starting square given, so any man
  std::int8_t from_file = -1;  // -1: not said
  std::int8_t from_rank = -1;
  Square to = no_square;
  PieceType promoted = no_piece_type;
};

// Any text. Leniencies as listed in kairos/rules/san.hpp.
MoveText read_move_text(std::string_view text) noexcept;

}  // namespace kairos::rules
