// Standard Algebraic Notation (PGN standard, section 8.2.3): moves in and out.
//
// Writing is exact: shortest disambiguation among the men that can legally go there, `=Q`, `+`,
// `#`. Reading takes SAN and what people's files hold. Leniencies (each has a row in
// tests/rules/san_test.cpp):
//   1. missing, surplus or wrong `+`, `#`, `++`
//   2. suffixes `!` `?` and their combinations
//   3. castling with zeros (0-0), small o, blanks around the hyphens, or hyphens left out
//   4. promotion without `=` (e8Q), with brackets e8(Q) or slash e8/Q, or with a small letter
//   5. long algebraic: `Ng1-f3`, `e2-e4`, `e2e4`, `e7e8q`, `e4xd5`, `Ng1xf3`
//   6. surplus disambiguation, also by a man that is pinned
//   7. `x` or `:` left out or added; `e.p.` or `ep` after an en passant capture
//   8. `P` before a pawn move; n, r, q, k for the pieces (b is a file)
//   9. null moves `--`, `Z0`, `null`, `@@@@`: read as null_move when not in check
//   10. the pieces as figures (U+2654 to U+265F), dashes for the hyphen
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::rules {

// A move text with figures as letters and dashes as hyphens (10); any other byte beyond ASCII, or a
// text too long for a move, leaves it as it is. Refers to the text or to itself.
class AsciiMove {
 public:
  explicit AsciiMove(std::string_view text) noexcept;
  AsciiMove(const AsciiMove&) = delete;
  AsciiMove& operator=(const AsciiMove&) = delete;
  [[nodiscard]] std::string_view text() const { return text_; }

 private:
  std::array<char, 24> room_{};
  std::string_view text_;
};

// What a text means as a move here: the move, or why not (not_a_move, illegal_move, ambiguous_move,
// no_such_piece). Does not allocate; the reader's fast path.
struct SanReading {
  Move move;
  base::Code problem = base::Code::not_a_move;  // only meaningful without a move
};
SanReading read_san(const Position& p, std::string_view text) noexcept;
// Reads a move of the usual shapes and plays it, faster than the one after the other. Without a
// move the position is as before and `read_san` has to look: castling, promotion and anything
// unusual or wrong is left to it.
Move play_plain_san(Position& p, std::string_view text) noexcept;

// Why `read_san` refuses the text, in plain words, for instance "the way from c1 to g5 is blocked"
// or "leaves the king in check"; empty when it does not.
std::string why_not(const Position& p, std::string_view text);
// The same as a Result whose fault quotes the text and says why (for instance "leaves the king in
// check").
base::Result<Move> parse_san(const Position& p, std::string_view text);

// The move, legal in `p`, in SAN; null_move as "--".
std::string to_san(const Position& p, Move m);
// Moves played one after the other from `p`, each in SAN.
std::vector<std::string> to_san(Position p, std::span<const Move> line);
// With move numbers: "12. Nf3 d5" or "12... d5 13. c4".
std::string to_numbered_san(Position p, std::span<const Move> line);

}  // namespace kairos::rules
