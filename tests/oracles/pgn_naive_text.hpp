// What the twin of the PGN reader (pgn_naive.hpp) asks a few bytes: what a character is, what a
// word looks like, and what a tag or comment says.
#pragma once

#include <string>
#include <string_view>

#include "kairos/pgn/game.hpp"

namespace kairos::oracles {

using Text = std::string_view;

inline constexpr Text mark = "\xEF\xBB\xBF";  // byte order mark

inline bool is_in(char c, Text set) {
  return set.find(c) != Text::npos;
}
inline bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
inline bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
inline bool is_high(char c) {
  return static_cast<unsigned char>(c) >= 0x80;
}
inline bool is_line_end(char c) {
  return c == '\n' || c == '\r';
}
inline bool is_control(char c) {
  return static_cast<unsigned char>(c) <= ' ' || c == '\x7F';
}
// The UTF-8 character at the front, or one byte of ISO 8859-1.
Text character(Text s);
// Blanks beyond ASCII (leniencies 1 and 33).
bool is_wide_blank(Text character);

// A word with dashes as hyphens and figures as a knight's letter; for what follows.
std::string plain(Text s);
// The GameResult (leniency 25) or NAG (16) that a word is, -1 when it is none.
int result_of(Text s);
int sign_of(Text s);
Text without_checks(Text s);
bool is_castling(Text s);
// The look of a move: a letter that can begin one, then what moves are made of, a square among it.
bool is_move(Text s);
// One that nothing need follow, so that an evaluation sign behind it is none of its own.
bool is_finished_move(Text s);
// What else may be meant as a move (leniency 32): a man's letter alone, a capture by files, or a
// word with a digit in it.
bool may_be_meant(Text s);

// The value of a tag, its escapes resolved, in UTF-8.
std::string resolved(Text value);
// A comment with blanks around line ends as one space, and none at both ends.
std::string one_line(Text comment);
// Cut to `size` bytes at most, between characters.
void cut_text(std::string& text, std::size_t size);
// What a Result tag says, `otherwise` when that is no result.
pgn::GameResult tag_result(Text value, pgn::GameResult otherwise);

}  // namespace kairos::oracles
