// The position that a fuzzer's input begins with: a FEN and a line end; else its first byte says
// how many moves to play from the start position, each chosen by one byte more.
#pragma once

#include <cstdint>
#include <string_view>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"

namespace kairos::fuzz {

// Takes the position off the front of `text`.
inline rules::Position take_position(std::string_view& text) {
  const auto end = text.find('\n');
  if (end != std::string_view::npos) {
    const auto from_fen = rules::parse_fen(text.substr(0, end));
    if (from_fen) {
      text.remove_prefix(end + 1);
      return *from_fen;
    }
  }
  rules::Position position = rules::Position::start();
  const auto take_byte = [&text] {
    const auto byte = static_cast<std::uint8_t>(text.front());
    text.remove_prefix(1);
    return byte;
  };
  for (unsigned plies = take_byte() % 128U; plies > 0 && !text.empty(); --plies) {
    rules::MoveList moves;
    rules::legal_moves(position, moves);
    if (moves.empty()) break;
    position.play(moves[take_byte() % moves.size()]);
  }
  return position;
}

}  // namespace kairos::fuzz
