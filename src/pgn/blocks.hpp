// The bytes of PGN text, 64 at a time as sets of bits: which belong to symbols, which are blank,
// where lines end, and what each could be in a move. Bit n stands for byte n. Whatever the
// tokenizer does with every byte happens here, without a branch.
//
// With AVX2 look-ups by nibble class 32 bytes at once; the plain code below gives the same sets
// (the tests compare both with the one-byte questions).
#pragma once

#include <array>
#include <cstdint>
#include <cstring>
#include <string_view>

#ifdef __AVX2__
#include <immintrin.h>
#endif

namespace kairos::pgn {

struct BlockSets {
  std::uint64_t symbols = 0;   // letters, digits, + # = - / : _ @ and all bytes from 0x80 on
  std::uint64_t blanks = 0;    // 0x00 to 0x20, and the dot, which never means anything
  std::uint64_t feeds = 0;     // LF
  std::uint64_t returns = 0;   // CR
  std::uint64_t brackets = 0;  // (
  std::uint64_t digits = 0;    // 0-9
  std::uint64_t ranks = 0;     // 1-8
  std::uint64_t files = 0;     // a-h
  std::uint64_t pieces = 0;    // KQRBNP
  std::uint64_t joints = 0;    // x -
  std::uint64_t checks = 0;    // + #
};

// Each byte's groups as bits, in two tables.
enum TextGroup : std::uint8_t {
  symbol_group = 1,
  blank_group = 2,
  feed_group = 4,
  return_group = 8,
  bracket_group = 16
};
enum MoveGroup : std::uint8_t {
  digit_group = 1,
  rank_group = 2,
  file_group = 4,
  piece_group = 8,
  joint_group = 16,
  check_group = 32
};

using ByteTable = std::array<std::uint8_t, 256>;
constexpr void add_group(ByteTable& table, std::string_view bytes, unsigned group) {
  for (const char c : bytes) {
    std::uint8_t& entry = table[static_cast<unsigned char>(c)];
    entry = static_cast<std::uint8_t>(entry | group);
  }
}

inline constexpr ByteTable text_groups = [] {
  ByteTable table{};
  for (unsigned byte = 0; byte <= 0x20; ++byte) table[byte] = blank_group;
  for (unsigned byte = 0x80; byte <= 0xFF; ++byte) table[byte] = symbol_group;
  add_group(table, ".", blank_group);
  add_group(table, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz", symbol_group);
  add_group(table, "0123456789+#=-/:_@", symbol_group);
  add_group(table, "\n", feed_group);
  add_group(table, "\r", return_group);
  add_group(table, "(", bracket_group);
  return table;
}();
inline constexpr ByteTable move_groups = [] {
  ByteTable table{};
  add_group(table, "0123456789", digit_group);
  add_group(table, "12345678", rank_group);
  add_group(table, "abcdefgh", file_group);
  add_group(table, "KQRBNP", piece_group);
  add_group(table, "x-", joint_group);
  add_group(table, "+#", check_group);
  return table;
}();

constexpr bool is_symbol_byte(char c) {
  return (text_groups[static_cast<unsigned char>(c)] & symbol_group) != 0;
}
constexpr bool is_blank_byte(char c) {
  return (text_groups[static_cast<unsigned char>(c)] & blank_group) != 0;
}
constexpr unsigned move_groups_of(char c) {
  return move_groups[static_cast<unsigned char>(c)];
}

#ifdef __AVX2__

// A class is a group within one high nibble: a byte is in it when the entries of its two nibbles
// share the class's bit. `high` says for each bit which high nibble (or nibbles) it stands for.
struct NibbleTables {
  std::array<std::uint8_t, 16> low{};
  std::array<std::uint8_t, 16> high{};
};
constexpr NibbleTables nibble_tables(const ByteTable& groups,
                                     const std::array<std::array<unsigned, 2>, 8>& classes) {
  NibbleTables tables;
  for (unsigned bit = 0; bit < 8; ++bit) {
    const auto [nibble, group] = classes[bit];
    tables.high[nibble] = static_cast<std::uint8_t>(tables.high[nibble] | 1U << bit);
    for (unsigned low = 0; low < 16; ++low) {
      const bool is_in = (groups[nibble << 4 | low] & group) != 0;
      tables.low[low] = static_cast<std::uint8_t>(tables.low[low] | unsigned{is_in} << bit);
    }
  }
  return tables;
}
inline constexpr NibbleTables text_tables = [] {
  NibbleTables tables = nibble_tables(text_groups, {{{2, symbol_group},
                                                     {3, symbol_group},
                                                     {4, symbol_group},
                                                     {5, symbol_group},
                                                     {6, symbol_group},
                                                     {7, symbol_group},
                                                     {0, blank_group},
                                                     {2, blank_group}}});
  tables.high[1] = tables.high[0];  // blank throughout, like 0
  return tables;
}();
inline constexpr NibbleTables move_tables = nibble_tables(move_groups, {{{3, digit_group},
                                                                         {3, rank_group},
                                                                         {6, file_group},
                                                                         {4, piece_group},
                                                                         {5, piece_group},
                                                                         {2, joint_group},
                                                                         {7, joint_group},
                                                                         {2, check_group}}});

inline __m256i classes_of(__m256i text, const NibbleTables& tables) {
  const auto wide = [](const std::array<std::uint8_t, 16>& t) {
    return _mm256_broadcastsi128_si256(_mm_loadu_si128(reinterpret_cast<const __m128i*>(t.data())));
  };
  const __m256i high = _mm256_and_si256(_mm256_srli_epi16(text, 4), _mm256_set1_epi8(15));
  return _mm256_and_si256(_mm256_shuffle_epi8(wide(tables.low), text),
                          _mm256_shuffle_epi8(wide(tables.high), high));
}

// The bytes that are in class `n`, as bits.
template <int n>
std::uint64_t class_bits(__m256i classes) {
  return static_cast<std::uint32_t>(_mm256_movemask_epi8(_mm256_slli_epi16(classes, 7 - n)));
}
inline std::uint64_t equal_bits(__m256i text, char c) {
  return static_cast<std::uint32_t>(
      _mm256_movemask_epi8(_mm256_cmpeq_epi8(text, _mm256_set1_epi8(c))));
}

template <int shift>
[[gnu::always_inline]] inline void add_half(BlockSets& sets, const char* bytes) {
  const __m256i text = _mm256_loadu_si256(reinterpret_cast<const __m256i*>(bytes));
  const __m256i any = classes_of(text, text_tables);
  const __m256i symbol_classes = _mm256_and_si256(any, _mm256_set1_epi8(0x3F));
  const auto no_symbol = static_cast<std::uint32_t>(
      _mm256_movemask_epi8(_mm256_cmpeq_epi8(symbol_classes, _mm256_setzero_si256())));
  const auto above_ascii = static_cast<std::uint32_t>(_mm256_movemask_epi8(text));
  sets.symbols |= std::uint64_t{~no_symbol | above_ascii} << shift;
  sets.blanks |= (class_bits<6>(any) | class_bits<7>(any)) << shift;
  sets.feeds |= equal_bits(text, '\n') << shift;
  sets.returns |= equal_bits(text, '\r') << shift;
  sets.brackets |= equal_bits(text, '(') << shift;
  const __m256i in_move = classes_of(text, move_tables);
  sets.digits |= class_bits<0>(in_move) << shift;
  sets.ranks |= class_bits<1>(in_move) << shift;
  sets.files |= class_bits<2>(in_move) << shift;
  sets.pieces |= (class_bits<3>(in_move) | class_bits<4>(in_move)) << shift;
  sets.joints |= (class_bits<5>(in_move) | class_bits<6>(in_move)) << shift;
  sets.checks |= class_bits<7>(in_move) << shift;
}

[[gnu::always_inline]] inline BlockSets block_sets(const char* bytes) {
  BlockSets sets;
  add_half<0>(sets, bytes);
  add_half<32>(sets, bytes + 32);
  return sets;
}

#else

// Bit n of each of eight bytes (the first in the lowest), gathered by one multiplication.
constexpr std::uint64_t gathered(std::uint64_t bytes, int n) {
  return (bytes >> n & 0x0101010101010101) * 0x0102040810204080 >> 56;
}

[[gnu::always_inline]] inline BlockSets block_sets(const char* bytes) {
  BlockSets sets;
  for (int eight = 0; eight < 64; eight += 8) {
    std::uint64_t text = 0;
    std::uint64_t in_move = 0;
    for (int i = 0; i < 8; ++i) {
      const auto byte = static_cast<unsigned char>(bytes[eight + i]);
      text |= std::uint64_t{text_groups[byte]} << (8 * i);
      in_move |= std::uint64_t{move_groups[byte]} << (8 * i);
    }
    sets.symbols |= gathered(text, 0) << eight;
    sets.blanks |= gathered(text, 1) << eight;
    sets.feeds |= gathered(text, 2) << eight;
    sets.returns |= gathered(text, 3) << eight;
    sets.brackets |= gathered(text, 4) << eight;
    sets.digits |= gathered(in_move, 0) << eight;
    sets.ranks |= gathered(in_move, 1) << eight;
    sets.files |= gathered(in_move, 2) << eight;
    sets.pieces |= gathered(in_move, 3) << eight;
    sets.joints |= gathered(in_move, 4) << eight;
    sets.checks |= gathered(in_move, 5) << eight;
  }
  return sets;
}

#endif

}  // namespace kairos::pgn
