// The bytes of PGN text, 64 at a time as sets of bits: which belong to symbols, which are blank,
// where lines end. Bit n stands for byte n. Everything the tokenizer does per byte happens here.
//
// With AVX2 two table look-ups by nibble class 32 bytes at once; the plain loop below gives the
// same sets (the tests run both builds).
#pragma once

#include <array>
#include <cstdint>

#ifdef __AVX2__
#include <immintrin.h>
#endif

namespace kairos::pgn {

struct BlockSets {
  std::uint64_t symbols = 0;  // letters, digits, + # = - / : _ @ and all bytes from 0x80 on
  std::uint64_t blanks = 0;   // 0x00 to 0x20, and the dot, which never means anything
  std::uint64_t feeds = 0;    // LF
  std::uint64_t returns = 0;  // CR
};

// One bit of a class for each group of bytes with the same high nibble: a byte is in a class when
// the entries of its two nibbles share a bit. Bits 0 to 5 make symbols, bits 6 and 7 blanks.
inline constexpr std::array<std::uint8_t, 16> low_nibble_classes = [] {
  constexpr std::array<std::uint16_t, 8> members = {
      0b1010'1000'0000'1000,  // bit 0, 0x2_: # + - /
      0b0010'0111'1111'1111,  // bit 1, 0x3_: 0-9 : =
      0b1111'1111'1111'1111,  // bit 2, 0x4_: @ A-O
      0b1000'0111'1111'1111,  // bit 3, 0x5_: P-Z _
      0b1111'1111'1111'1110,  // bit 4, 0x6_: a-o
      0b0000'0111'1111'1111,  // bit 5, 0x7_: p-z
      0b1111'1111'1111'1111,  // bit 6, 0x0_ and 0x1_: controls
      0b0100'0000'0000'0001,  // bit 7, 0x2_: space and dot
  };
  std::array<std::uint8_t, 16> table{};
  for (unsigned low = 0; low < 16; ++low) {
    for (unsigned bit = 0; bit < 8; ++bit) {
      if (members[bit] >> low & 1) table[low] = static_cast<std::uint8_t>(table[low] | 1U << bit);
    }
  }
  return table;
}();
inline constexpr std::array<std::uint8_t, 16> high_nibble_classes = {0x40, 0x40, 0x81, 0x02,
                                                                     0x04, 0x08, 0x10, 0x20};
inline constexpr std::uint8_t symbol_classes = 0x3F;
inline constexpr std::uint8_t blank_classes = 0xC0;

constexpr bool is_symbol_byte(char c) {
  const auto byte = static_cast<std::uint8_t>(c);
  return byte >= 0x80 ||
         (low_nibble_classes[byte & 15] & high_nibble_classes[byte >> 4] & symbol_classes) != 0;
}
constexpr bool is_blank_byte(char c) {
  const auto byte = static_cast<std::uint8_t>(c);
  return byte < 0x80 &&
         (low_nibble_classes[byte & 15] & high_nibble_classes[byte >> 4] & blank_classes) != 0;
}

#ifdef __AVX2__

inline void add_half(BlockSets& sets, const char* bytes, int shift) {
  const auto table = [](const std::array<std::uint8_t, 16>& t) {
    return _mm256_broadcastsi128_si256(_mm_loadu_si128(reinterpret_cast<const __m128i*>(t.data())));
  };
  const auto bits = [shift](__m256i v) {
    return static_cast<std::uint64_t>(static_cast<std::uint32_t>(_mm256_movemask_epi8(v))) << shift;
  };
  const __m256i text = _mm256_loadu_si256(reinterpret_cast<const __m256i*>(bytes));
  const __m256i high = _mm256_and_si256(_mm256_srli_epi16(text, 4), _mm256_set1_epi8(15));
  const __m256i classes = _mm256_and_si256(_mm256_shuffle_epi8(table(low_nibble_classes), text),
                                           _mm256_shuffle_epi8(table(high_nibble_classes), high));
  const __m256i no_symbol = _mm256_cmpeq_epi8(
      _mm256_and_si256(classes, _mm256_set1_epi8(symbol_classes)), _mm256_setzero_si256());
  sets.symbols |= bits(_mm256_or_si256(_mm256_andnot_si256(no_symbol, _mm256_set1_epi8(-1)), text));
  sets.blanks |= bits(_mm256_or_si256(classes, _mm256_slli_epi16(classes, 1)));
  sets.feeds |= bits(_mm256_cmpeq_epi8(text, _mm256_set1_epi8('\n')));
  sets.returns |= bits(_mm256_cmpeq_epi8(text, _mm256_set1_epi8('\r')));
}

inline BlockSets block_sets(const char* bytes) {
  BlockSets sets;
  add_half(sets, bytes, 0);
  add_half(sets, bytes + 32, 32);
  return sets;
}

#else

inline BlockSets block_sets(const char* bytes) {
  BlockSets sets;
  for (int i = 0; i < 64; ++i) {
    const auto bit = [i](bool is_in) { return std::uint64_t{is_in} << i; };
    sets.symbols |= bit(is_symbol_byte(bytes[i]));
    sets.blanks |= bit(is_blank_byte(bytes[i]));
    sets.feeds |= bit(bytes[i] == '\n');
    sets.returns |= bit(bytes[i] == '\r');
  }
  return sets;
}

#endif

}  // namespace kairos::pgn
