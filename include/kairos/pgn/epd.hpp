// Extended Position Description (PGN standard, section 16.2): four FEN fields and operations.
//
// Reading accepts FEN counters after the four fields (they become hmvc and fmvn unless given) and
// operations in any order; writing sorts opcodes in ASCII order and quotes string operands. Move
// operands stay text: `epd_moves` turns them into legal moves. `perft` counts (FEN ;D1 20 ;D2 400)
// are another format and are read in rules/perft.hpp.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::pgn {

struct EpdOperation {
  std::string opcode;
  std::vector<std::string> operands;  // without quotes
  bool is_string = false;             // written in quotes
};

struct Epd {
  rules::Position position = rules::Position::start();
  std::vector<EpdOperation> operations;

  [[nodiscard]] const EpdOperation* find(std::string_view opcode) const;
  // The first operand, or "".
  [[nodiscard]] std::string_view text(std::string_view opcode) const;
  void add_moves(std::string opcode, std::span<const rules::Move> moves);  // each from `position`
  void add_line(std::string opcode, std::span<const rules::Move> line);    // one after the other
  void add_text(std::string opcode, std::string text);
  void add_number(std::string opcode, std::int64_t value);
};

// Bytes; a longer line is a fault (line_too_long). The fields of a position take a hundred, all
// that kairos writes about a puzzle stays under 4,000, and each operation is compared with those
// before it.
inline constexpr std::size_t longest_epd_line = std::size_t{1} << 14;
inline constexpr std::size_t most_epd_faults = 16;  // then their number

base::Result<Epd> parse_epd(std::string_view line);
std::string to_epd(const Epd& epd);

// The operands of `opcode` as legal moves of the position (bm, am) ...
base::Result<std::vector<rules::Move>> epd_moves(const Epd& epd, std::string_view opcode);
// ... or as a line played from it (pv).
base::Result<std::vector<rules::Move>> epd_line(const Epd& epd, std::string_view opcode);

}  // namespace kairos::pgn
