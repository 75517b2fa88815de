// The tables behind attacks.hpp.
//
// Steps and lines are computed by the compiler. Sliding attacks are filled in before main: for each
// square, every way its lines can be occupied gets an index, and under that index stands the set of
// attacked squares. The last square of a line never matters, since a man there is attacked either
// way; so a rook needs at most 12 bits, a bishop at most 9, and the tables stay under a megabyte.
// With PEXT the index is just these bits drawn together. Without it, `(occupied & mask) * factor`
// moves them to the top of the word: a factor is good when no two occupations that differ in their
// attacks fall on one index. Such factors are common enough to be found by drawing sparse random
// numbers from a fixed seed, in well under a second for all squares; the search is the proof.
// Covered by tests/rules/attacks_test.cpp, which walks every line square by square.
#include "kairos/rules/attacks.hpp"

#include <cstddef>
#include <span>

#include "random.hpp"

namespace kairos::rules {

namespace {

struct Step {
  int file;
  int rank;
};

constexpr std::array<Step, 4> rook_steps{{{0, 1}, {1, 0}, {0, -1}, {-1, 0}}};
constexpr std::array<Step, 4> bishop_steps{{{1, 1}, {1, -1}, {-1, -1}, {-1, 1}}};
constexpr std::array<Step, 8> knight_steps{
    {{1, 2}, {2, 1}, {2, -1}, {1, -2}, {-1, -2}, {-2, -1}, {-2, 1}, {-1, 2}}};

constexpr bool on_board(int file, int rank) {
  return 0 <= file && file < 8 && 0 <= rank && rank < 8;
}

// The squares one step away.
constexpr Bitboard leaps(Square s, std::span<const Step> steps) {
  Bitboard set = 0;
  for (const Step step : steps) {
    const int file = file_of(s) + step.file, rank = rank_of(s) + step.rank;
    if (on_board(file, rank)) set |= bit(square_at(file, rank));
  }
  return set;
}

// The squares in one direction up to and including the first occupied one.
constexpr Bitboard ray(Square s, Step step, Bitboard occupied) {
  Bitboard set = 0;
  int file = file_of(s) + step.file, rank = rank_of(s) + step.rank;
  for (; on_board(file, rank); file += step.file, rank += step.rank) {
    const Square reached = square_at(file, rank);
    set |= bit(reached);
    if (contains(occupied, reached)) break;
  }
  return set;
}

constexpr Bitboard slides(Square s, std::span<const Step> steps, Bitboard occupied) {
  Bitboard set = 0;
  for (const Step step : steps) set |= ray(s, step, occupied);
  return set;
}

constexpr detail::SquareTable leap_table(std::span<const Step> steps) {
  detail::SquareTable table{};
  for (int s = 0; s < square_count; ++s) {
    const auto square = static_cast<Square>(s);
    table[square] = leaps(square, steps);
  }
  return table;
}

constexpr detail::SquareTable pawn_table(int forward_step) {
  const std::array<Step, 2> steps{{{-1, forward_step}, {1, forward_step}}};
  return leap_table(steps);
}

constexpr detail::SquareTable king_table() {
  detail::SquareTable table = leap_table(rook_steps);
  const detail::SquareTable diagonal = leap_table(bishop_steps);
  for (std::size_t s = 0; s < table.size(); ++s) table[s] |= diagonal[s];
  return table;
}

constexpr detail::SquareTable slide_table(std::span<const Step> steps) {
  detail::SquareTable table{};
  for (int s = 0; s < square_count; ++s) {
    const auto square = static_cast<Square>(s);
    table[square] = slides(square, steps, 0);
  }
  return table;
}

constexpr std::array<detail::SquareTable, piece_type_count> make_empty_board_table() {
  std::array<detail::SquareTable, piece_type_count> table{};  // that of the pawn stays empty
  table[knight] = leap_table(knight_steps);
  table[bishop] = slide_table(bishop_steps);
  table[rook] = slide_table(rook_steps);
  for (std::size_t s = 0; s < square_count; ++s)
    table[queen][s] = table[bishop][s] | table[rook][s];
  table[king] = king_table();
  return table;
}

using PairTable = std::array<detail::SquareTable, square_count>;

// Calls visit(a, b, step, opposite step) for all pairs of squares on one line.
template <typename Visit>
constexpr void for_each_pair_on_a_line(Visit visit) {
  for (int n = 0; n < square_count; ++n) {
    const auto a = static_cast<Square>(n);
    for (const auto& steps : {rook_steps, bishop_steps}) {
      for (const Step step : steps) {
        for (Bitboard reach = ray(a, step, 0); reach != 0;) {
          visit(a, take_first(reach), step, Step{-step.file, -step.rank});
        }
      }
    }
  }
}

constexpr PairTable make_between_table() {
  PairTable table{};
  for_each_pair_on_a_line(
      [&](Square a, Square b, Step to_b, Step) { table[a][b] = ray(a, to_b, bit(b)) & ~bit(b); });
  return table;
}

constexpr PairTable make_line_table() {
  PairTable table{};
  for_each_pair_on_a_line([&](Square a, Square b, Step to_b, Step away) {
    table[a][b] = bit(a) | ray(a, to_b, 0) | ray(a, away, 0);
  });
  return table;
}

// Without the last square of each line, where occupation changes nothing.
Bitboard relevant_squares(Square s, std::span<const Step> steps) {
  Bitboard set = 0;
  for (const Step step : steps) {
    const Bitboard whole = ray(s, step, 0);
    for (Bitboard rest = whole; rest != 0;) {
      const Square reached = take_first(rest);
      if (on_board(file_of(reached) + step.file, rank_of(reached) + step.rank)) set |= bit(reached);
    }
  }
  return set;
}

// Sums of 2^relevant over all squares: what the two kinds of sliders need.
constexpr std::size_t bishop_entries = 5248;
constexpr std::size_t rook_entries = 102400;

std::array<Bitboard, bishop_entries + rook_entries> attack_store;

// Fills one square's part from all subsets of its mask; false when two subsets with different
// attacks fall on one index (which cannot happen with PEXT).
bool fill(const detail::Slider& slider, Square s, std::span<const Step> steps,
          std::span<Bitboard> room) {
  for (Bitboard& entry : room) entry = 0;
  Bitboard subset = 0;
  do {
    const Bitboard reach = slides(s, steps, subset);
    Bitboard& entry = room[slider.index_of(subset)];
    if (entry != 0 && entry != reach) return false;
    entry = reach;
    subset = (subset - slider.mask) & slider.mask;  // the next subset of the mask
  } while (subset != 0);
  return true;
}

std::size_t fill_kind(std::array<detail::Slider, square_count>& kind, std::span<const Step> steps,
                      std::size_t used) {
  for (int n = 0; n < square_count; ++n) {
    const auto s = static_cast<Square>(n);
    detail::Slider& slider = kind[s];
    slider.mask = relevant_squares(s, steps);
    const std::size_t size = std::size_t{1} << count(slider.mask);
    slider.attacks = &attack_store[used];
    const std::span<Bitboard> room(&attack_store[used], size);
#ifdef __BMI2__
    fill(slider, s, steps, room);
#else
    slider.shift = 64U - static_cast<unsigned>(count(slider.mask));
    RandomBits random(static_cast<std::uint64_t>(n) + 1);
    do {
      slider.factor = random.next() & random.next() & random.next();
    } while (!fill(slider, s, steps, room));
#endif
    used += size;
  }
  return used;
}

detail::Sliders make_sliders() {
  detail::Sliders made;
  const std::size_t used = fill_kind(made.bishop, bishop_steps, 0);
  fill_kind(made.rook, rook_steps, used);
  return made;
}

}  // namespace

namespace detail {

constinit const std::array<SquareTable, 2> pawn_attack_table{pawn_table(1), pawn_table(-1)};
constinit const SquareTable knight_attack_table = leap_table(knight_steps);
constinit const SquareTable king_attack_table = king_table();
constinit const std::array<SquareTable, piece_type_count> empty_board_table =
    make_empty_board_table();
constinit const std::array<SquareTable, square_count> between_table = make_between_table();
constinit const std::array<SquareTable, square_count> line_table = make_line_table();

// Before all other start-up code of the program, so that a position may be a namespace-scope
// constant elsewhere.
[[gnu::init_priority(101)]] const Sliders sliders = make_sliders();

}  // namespace detail

Bitboard attacks_of(PieceType t, Square s, Bitboard occupied) {
  switch (t) {
    case knight:
      return knight_attacks(s);
    case bishop:
      return bishop_attacks(s, occupied);
    case rook:
      return rook_attacks(s, occupied);
    case queen:
      return queen_attacks(s, occupied);
    case king:
      return king_attacks(s);
    case pawn:
    case no_piece_type:
      break;
  }
  return 0;
}

Bitboard attackers_to(const Position& p, Square s, Bitboard occupied) {
  const Bitboard queens = p.pieces(queen);
  return (pawn_attacks(black, s) & p.pieces(white, pawn)) |
         (pawn_attacks(white, s) & p.pieces(black, pawn)) | (knight_attacks(s) & p.pieces(knight)) |
         (king_attacks(s) & p.pieces(king)) |
         (bishop_attacks(s, occupied) & (p.pieces(bishop) | queens)) |
         (rook_attacks(s, occupied) & (p.pieces(rook) | queens));
}

}  // namespace kairos::rules
