// The tables behind attacks.hpp.
//
// Steps and lines are computed by the compiler. Sliding attacks are filled in before main: for each
// square, every way its lines can be occupied gets an index, and under that index stands the set of
// attacked squares. The last square of a line never matters, since a man there is attacked either
// way; so a rook needs at most 12 bits, a bishop at most 9, and the tables take 840 kB.
// With PEXT the index is just these bits drawn together. Without it, `(occupied & mask) * factor`
// moves them to the top of the word: a factor is good when no two occupations that differ in their
// attacks fall on one index. Such factors are found by drawing sparse random numbers from a fixed
// seed; trying one on all occupations is its proof. One bit more than needed in the index doubles
// the tables and makes good factors so common that the search takes some 30 ms (some 250 without).
// Covered by tests/rules/attacks_test.cpp, which walks every line square by square.
#include "kairos/rules/attacks.hpp"

#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

#include "random.hpp"

namespace kairos::rules {

namespace {

// One step in files and ranks, so that no step wraps around the board's edge unseen.
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

// The squares of all the ways together: the slow, plain form of what the tables hold.
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

// What pawns attack; their steps are no attacks.
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

// The second square stops the ray and is then left out.
constexpr PairTable make_between_table() {
  PairTable table{};
  for_each_pair_on_a_line(
      [&](Square a, Square b, Step to_b, Step) { table[a][b] = ray(a, to_b, bit(b)) & ~bit(b); });
  return table;
}

// From edge to edge.
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

#ifdef __BMI2__
constexpr unsigned spare_bits = 0;
#else
constexpr unsigned spare_bits = 1;
#endif

// Over all squares, two to the power of the number of squares that matter.
constexpr std::size_t bishop_cases = 5248;
constexpr std::size_t rook_cases = 102400;

// One table for all squares and both kinds; each square knows where its part begins.
std::array<Bitboard, (bishop_cases + rook_cases) << spare_bits> attack_store;

// All ways to occupy a mask, each with the squares attacked then.
struct Case {
  Bitboard occupied;
  Bitboard reach;
};
std::vector<Case> cases_of(Square s, std::span<const Step> steps, Bitboard mask) {
  std::vector<Case> cases;
  Bitboard subset = 0;
  do {
    cases.push_back({subset, slides(s, steps, subset)});
    subset = (subset - mask) & mask;  // the next subset of the mask
  } while (subset != 0);
  return cases;
}

#ifndef __BMI2__
// Draws factors until one sends no two cases with different attacks to one index.
class FactorSearch {
 public:
  explicit FactorSearch(std::uint64_t seed) : random_(seed) {}

  void run(detail::Slider& slider, const std::vector<Case>& cases) {
    slider.shift = 64U - spare_bits - static_cast<unsigned>(count(slider.mask));
    do {
      slider.factor = random_.next() & random_.next() & random_.next();
      // The index is the top of the product: without several bits there it cannot be any good.
    } while (count(slider.mask * slider.factor >> 56) < 6 || !fits(slider, cases));
  }

 private:
  bool fits(const detail::Slider& slider, const std::vector<Case>& cases) {
    ++trial_;
    for (const Case& c : cases) {
      Entry& entry = entries_[slider.index_of(c.occupied)];
      if (entry.trial == trial_ && entry.reach != c.reach) return false;
      entry = {trial_, c.reach};
    }
    return true;
  }

  // Marked with the trial that wrote it, so that nothing need be cleared in between.
  struct Entry {
    std::uint64_t trial = 0;
    Bitboard reach = 0;
  };
  std::array<Entry, 4096 << spare_bits> entries_{};
  std::uint64_t trial_ = 0;
  RandomBits random_;
};
#endif

// Fills the part of the store from `used` on; returns what is used then.
std::size_t fill_kind(std::array<detail::Slider, square_count>& kind, std::span<const Step> steps,
                      std::size_t used) {
#ifndef __BMI2__
  FactorSearch search(used);
#endif
  for (int n = 0; n < square_count; ++n) {
    const auto s = static_cast<Square>(n);
    detail::Slider& slider = kind[s];
    slider.mask = relevant_squares(s, steps);
    slider.attacks = &attack_store[used];
    const std::vector<Case> cases = cases_of(s, steps, slider.mask);
#ifndef __BMI2__
    search.run(slider, cases);
#endif
    for (const Case& c : cases) attack_store[used + slider.index_of(c.occupied)] = c.reach;
    used += cases.size() << spare_bits;
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

// `constinit`: these are in the program's image, there is no time at which they are not yet filled.
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

bool is_passed(const Position& p, Square s) {
  const Color side = color_of(p.piece_on(s));
  const int file = file_of(s), rank = rank_of(s);
  Bitboard files = 0, front = 0;
  for (int f = std::max(0, file - 1); f <= std::min(7, file + 1); ++f) files |= file_mask(f);
  for (int r = 0; r < 8; ++r) {
    if (side == white ? r > rank : r < rank) front |= rank_mask(r);
  }
  return (front & files & p.pieces(~side, pawn)) == 0;
}

}  // namespace kairos::rules
