// The reach of many men at once: all knights and sliders of one side.
//
// Two ways, one result. The plain one looks up each man's attacks. Where the processor has eight
// 64-bit lanes and counts bits in them (AVX-512), each lane takes one of the eight directions, and
// all sliders move along it together: three doublings of the step fill a ray of up to seven squares
// (1 + 2 + 4), empty squares letting it through. In one direction no two men reach the same square,
// because the one behind is stopped by the one in front; so the bits left in the lanes, counted,
// are the moves of all men, and no loop depends on how many there are. Knights take the eight
// leaps.
#pragma once

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/bitboard.hpp"

#if defined(__AVX512F__) && defined(__AVX512VPOPCNTDQ__)
#define KAIROS_LANES
#include <immintrin.h>
#endif

namespace kairos::rules {

// Sets of men by their way of going; a queen is in two of them.
struct PieceSets {
  Bitboard knights;
  Bitboard diagonal;  // bishops and queens
  Bitboard straight;  // rooks and queens
};

// Calls visit(from, reached squares) for each man; a queen comes twice, once for each way of going.
template <typename Visit>
void for_each_man(PieceSets men, Bitboard occupied, Visit visit) {
  while (men.knights != 0) {
    const Square s = take_first(men.knights);
    visit(s, knight_attacks(s));
  }
  while (men.diagonal != 0) {
    const Square s = take_first(men.diagonal);
    visit(s, bishop_attacks(s, occupied));
  }
  while (men.straight != 0) {
    const Square s = take_first(men.straight);
    visit(s, rook_attacks(s, occupied));
  }
}

#ifdef KAIROS_LANES

namespace lanes {

using Lanes = __m512i;
struct alignas(64) Constants {
  std::array<Bitboard, 8> of;
};

// Directions: four along ranks and files, then four along diagonals. A step is a rotation to the
// left by `step` bits; what went over the board's edge lands outside `landing` and is dropped.
constexpr Bitboard file_b = file_a << 1, file_g = file_h >> 1;
constexpr Bitboard rank_2 = rank_1 << 8, rank_7 = rank_8 >> 8;
inline constexpr Constants step{{8, 1, 56, 63, 9, 57, 55, 7}};
inline constexpr Constants two_steps{{16, 2, 48, 62, 18, 50, 46, 14}};
inline constexpr Constants four_steps{{32, 4, 32, 60, 36, 36, 28, 28}};
inline constexpr Constants landing{{~rank_1, ~file_a, ~rank_8, ~file_h, ~(rank_1 | file_a),
                                    ~(rank_8 | file_a), ~(rank_8 | file_h), ~(rank_1 | file_h)}};
inline constexpr Constants leap{{17, 10, 58, 49, 47, 54, 6, 15}};
inline constexpr Constants leap_landing{{~(file_a | rank_1 | rank_2), ~(file_a | file_b | rank_1),
                                         ~(file_a | file_b | rank_8), ~(file_a | rank_8 | rank_7),
                                         ~(file_h | rank_8 | rank_7), ~(file_h | file_g | rank_8),
                                         ~(file_h | file_g | rank_1), ~(file_h | rank_1 | rank_2)}};

inline Lanes load(const Constants& constants) {
  return _mm512_load_si512(constants.of.data());
}
inline Lanes spread(Bitboard set) {
  return _mm512_set1_epi64(static_cast<long long>(set));
}
// The form that zeroes masked lanes, with no lane masked: the plain one of g++ 12 starts from a
// value that it then warns to be uninitialised.
inline Lanes rotated(Lanes a, const Constants& by) {
  return _mm512_maskz_rolv_epi64(0xFF, a, load(by));
}
// `join` of all eight lanes.
template <typename Join>
Bitboard folded(Lanes a, Join join) {
  const auto four =
      join(__builtin_shufflevector(a, a, 0, 1, 2, 3), __builtin_shufflevector(a, a, 4, 5, 6, 7));
  const auto two =
      join(__builtin_shufflevector(four, four, 0, 1), __builtin_shufflevector(four, four, 2, 3));
  return static_cast<Bitboard>(join(two[0], two[1]));
}

// What all sliders reach in each direction, the first occupied square included.
inline Lanes rays(const PieceSets& men, Bitboard occupied) {
  const Lanes on_board = load(landing);
  Lanes reach = _mm512_mask_blend_epi64(0xF0, spread(men.straight), spread(men.diagonal));
  Lanes open = on_board & spread(~occupied);
  reach |= open & rotated(reach, step);
  open &= rotated(open, step);
  reach |= open & rotated(reach, two_steps);
  open &= rotated(open, two_steps);
  reach |= open & rotated(reach, four_steps);
  return on_board & rotated(reach, step);
}

// Leaps need no filling: each lane shifts all knights by one of theirs.
inline Lanes leaps(const PieceSets& men) {
  return load(leap_landing) & rotated(spread(men.knights), leap);
}

}  // namespace lanes

// All squares that any of the men attacks.
inline Bitboard attacks_of(const PieceSets& men, Bitboard occupied) {
  return lanes::folded(lanes::rays(men, occupied) | lanes::leaps(men),
                       [](auto a, auto b) { return a | b; });
}

// How many moves onto `targets` the men have, none of these holding a man of theirs.
inline int count_moves(const PieceSets& men, Bitboard occupied, Bitboard targets) {
  const auto allowed = lanes::spread(targets);
  const auto slides = _mm512_popcnt_epi64(allowed & lanes::rays(men, occupied));
  const auto leaps = _mm512_popcnt_epi64(allowed & lanes::leaps(men));
  return static_cast<int>(lanes::folded(slides + leaps, [](auto a, auto b) { return a + b; }));
}

#else

inline Bitboard attacks_of(const PieceSets& men, Bitboard occupied) {
  Bitboard all = 0;
  for_each_man(men, occupied, [&](Square, Bitboard reach) { all |= reach; });
  return all;
}

inline int count_moves(const PieceSets& men, Bitboard occupied, Bitboard targets) {
  int total = 0;
  for_each_man(men, occupied, [&](Square, Bitboard reach) { total += count(reach & targets); });
  return total;
}

#endif

}  // namespace kairos::rules
