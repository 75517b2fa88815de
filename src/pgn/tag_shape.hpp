// A tag as export writes it, [Name "value"], found with a few comparisons of 32 or 64 bytes: name
// of symbol bytes, one space, a value without quote, backslash or line end, all within 64 bytes.
// Anything else, and everything where the build has no AVX2, is left to the slow way.
#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>

#include "blocks.hpp"

namespace kairos::pgn {

// Distances from the [ ; `end` is behind the ] and 0 when the tag has another form.
struct TagShape {
  std::size_t name_end = 0;
  std::size_t value = 0;
  std::size_t end = 0;
};

#ifdef __AVX2__

// Looks at 66 bytes from `text` (a [ ) on.
inline TagShape shape_of_tag(const char* text) {
  const auto load = [text](int at) {
    return _mm256_loadu_si256(reinterpret_cast<const __m256i*>(text + at));
  };
  const __m256i front = load(0);
  const __m256i back = load(32);
  const auto both = [&](char c) { return equal_bits(front, c) | equal_bits(back, c) << 32; };
  const std::uint64_t quotes = both('"');
  const std::uint64_t others = both('\\') | both('\n') | both('\r');
  const auto opening = static_cast<unsigned>(std::countr_zero(quotes));
  const std::uint64_t closing_bit = quotes & (quotes - 1);
  const auto closing = static_cast<unsigned>(std::countr_zero(closing_bit));
  const __m256i classes = _mm256_and_si256(classes_of(front, text_tables), _mm256_set1_epi8(0x3F));
  const std::uint64_t no_symbol = equal_bits(classes, 0) & ~std::uint64_t{1};
  const auto name_end = static_cast<unsigned>(std::countr_zero(no_symbol));
  const char first = static_cast<char>(text[1] | 0x20);
  const bool is_plain = closing_bit != 0 && (others & (closing_bit - 1)) == 0 &&
                        text[closing + 1] == ']' && name_end + 1 == opening &&
                        text[name_end] == ' ' && first >= 'a' && first <= 'z';
  if (!is_plain) return {};
  return {name_end, opening + 1, closing + 2};
}

#else

inline TagShape shape_of_tag(const char* /*text*/) {
  return {};
}

#endif

}  // namespace kairos::pgn
