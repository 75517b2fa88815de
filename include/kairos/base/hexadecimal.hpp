// Fixed-width hexadecimal numbers, small letters: how checksums and keys of games are written.
//
// Reading takes what writing gives and nothing else: no sign, no capitals, no "0x". Nothing comes
// of text that is longer than 64 bits hold, or empty.
#pragma once

#include <charconv>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace kairos::base {

inline std::string to_hexadecimal(std::uint64_t value, std::size_t digits) {
  constexpr std::string_view letters = "0123456789abcdef";
  std::string text(digits, '0');
  for (std::size_t i = digits; i-- > 0; value >>= 4) text[i] = letters[value & 15];
  return text;
}

inline std::optional<std::uint64_t> parse_hexadecimal(std::string_view text) {
  std::uint64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, 16);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  if (text.find_first_of("ABCDEF") != std::string_view::npos) return std::nullopt;
  return value;
}

}  // namespace kairos::base
