// Small work on text: numbers in and out without locale, splitting, trimming, and bytes to UTF-8.
//
// All functions are pure. Numbers are printed through std::to_chars, so the same value gives the
// same bytes on every machine. Views returned point into the argument.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace kairos::base {

// `value` with exactly `places` digits after the point, "-0.00" never printed.
std::string fixed(double value, int places);
std::string number(std::int64_t value);
// 1234567 as "1,234,567".
std::string grouped(std::uint64_t value);
// "1 game", "2 games", "1,000 games"; `many` where an s does not make it.
std::string counted(std::uint64_t count, std::string_view one, std::string_view many = "");

std::optional<std::int64_t> to_integer(std::string_view text);

std::string_view trim(std::string_view text);
std::vector<std::string_view> split(std::string_view text, char separator);
// The parts between runs of spaces and tabs.
std::vector<std::string_view> fields(std::string_view text);
std::string join(const std::vector<std::string>& parts, std::string_view separator);

bool is_valid_utf8(std::string_view text);
// The character at the front of a text that is not empty: a well-formed sequence of UTF-8 (RFC
// 3629), or one byte that is none and has no code point.
struct Character {
  std::optional<char32_t> point;
  std::size_t size = 1;  // bytes
};
Character first_character(std::string_view text);
// U+0000 to U+001F and U+007F to U+009F.
bool is_control(char32_t point);
// Text as UTF-8: valid UTF-8 stays; anything else is read as ISO 8859-1, the character set of the
// PGN standard (section 4.1). Control characters become spaces, those from U+0080 to
// U+009F, with which some terminals begin a command, the replacement character U+FFFD.
std::string to_utf8(std::string_view bytes);
// At most `most` bytes from the front, not ending inside a character of UTF-8.
std::string_view cut(std::string_view text, std::size_t most);
// How many characters (code points) valid UTF-8 holds.
std::size_t character_count(std::string_view utf8);
// At most `width` characters (3 at least), with "..." where something is left out.
std::string elided(std::string_view utf8, std::size_t width);

// ASCII only; other bytes stay.
std::string lower_case(std::string_view text);

// How many letters must be put in, taken out, changed or swapped with their neighbour. Of short
// texts: time and memory grow with the product of the lengths.
std::size_t edit_distance(std::string_view a, std::string_view b);
// The known word with the least distance from a mistyped one, the first of several; "" when none is
// near (more than a third of the letters, and at least 2, would change).
std::string nearest(std::string_view word, const std::vector<std::string>& known);

}  // namespace kairos::base
