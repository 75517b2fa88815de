// What a run of symbol bytes means when it is no plain move or number. Private to the tokenizer.
//
// A reading takes the front of the text: bytes to pass over (`begin`: blanks and dots of other
// character sets), then the token's own (`size`); what is left is read again.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "kairos/pgn/tokens.hpp"

namespace kairos::pgn {

constexpr bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
constexpr bool is_file(char c) {
  return c >= 'a' && c <= 'h';
}
constexpr bool is_rank(char c) {
  return c >= '1' && c <= '8';
}
constexpr bool is_piece(char c) {
  return c == 'N' || c == 'B' || c == 'R' || c == 'Q' || c == 'K' || c == 'P';
}
constexpr bool is_small_piece(char c) {
  return c == 'n' || c == 'r' || c == 'q' || c == 'k';
}
constexpr bool begins_move(char c) {
  return is_file(c) || is_piece(c);
}
// Between the first byte of a move and the square it goes to.
constexpr bool is_inside_move(char c) {
  return is_file(c) || is_rank(c) || c == 'x' || c == ':' || c == '-';
}

struct SymbolReading {
  TokenKind kind = TokenKind::unknown;
  std::uint8_t value = 0;
  std::size_t begin = 0;
  std::size_t size = 0;
};

// `text` is not empty; `size` of the answer is at least 1 unless `begin` takes all of it.
SymbolReading read_symbol(std::string_view text);

// Whether somebody may have meant a move by it (31): passing over it would leave its other moves to
// the wrong side. A letter and some digit (P-K4, and pieces named in other alphabets), pawns that
// take as they are spoken of (ed, exd), a piece alone.
bool may_be_meant_as_move(std::string_view text);

// The end of the symbol `window[at, end)` with what belongs to it behind a byte that is none:
// `e8(Q)`, `exd6e.p.`, and when it is but one byte `O - O` and what follows the 1 of `1 - 0`; `end`
// when nothing does. Looks at three bytes before `at` too.
std::size_t joined_end(std::string_view window, std::size_t at, std::size_t end);

}  // namespace kairos::pgn
