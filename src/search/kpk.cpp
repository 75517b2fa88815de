#include "kpk.hpp"

#include <bitset>

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/bitboard.hpp"

// White has the pawn, on files a to d (the board is mirrored otherwise). Starting from "nothing is
// known to be won", positions are marked won while any rule applies: White to move wins when a
// promotion stands or some move leads to a won position; Black to move loses when he has a move and
// all of them lead to won positions. What is never marked is drawn. tests/search/kpk_test.cpp
// checks the counts against published ones.

namespace kairos::search {

using rules::bit;
using rules::Bitboard;
using rules::Color;
using rules::Square;

namespace {

constexpr std::size_t pawn_squares = 24;
constexpr std::size_t positions = std::size_t{2} * 64 * 64 * pawn_squares;

std::size_t place(Color side, Square white_king, Square black_king, Square pawn) {
  const auto pawn_index =
      static_cast<std::size_t>(rules::file_of(pawn) + 4 * (rules::rank_of(pawn) - 1));
  return ((side * std::size_t{64} + white_king) * 64 + black_king) * pawn_squares + pawn_index;
}

class Solver {
 public:
  Solver() {
    bool changed = true;
    while (changed) changed = sweep();
  }
  std::bitset<positions> won;

 private:
  bool sweep() {
    bool changed = false;
    for (int pawn = rules::a2; pawn <= rules::d7; ++pawn) {
      if (pawn % 8 > 3) continue;
      for (int wk = 0; wk < 64; ++wk) {
        for (int bk = 0; bk < 64; ++bk) {
          changed |=
              visit(static_cast<Square>(wk), static_cast<Square>(bk), static_cast<Square>(pawn));
        }
      }
    }
    return changed;
  }

  bool visit(Square wk, Square bk, Square pawn) {
    if (wk == bk || wk == pawn || bk == pawn) return false;
    if (rules::contains(rules::king_attacks(wk), bk)) return false;
    bool changed = false;
    const bool black_in_check = rules::contains(rules::pawn_attacks(rules::white, pawn), bk);
    const std::size_t white_moves = place(rules::white, wk, bk, pawn);
    if (!black_in_check && !won[white_moves] && white_wins(wk, bk, pawn)) {
      won[white_moves] = true;
      changed = true;
    }
    const std::size_t black_moves = place(rules::black, wk, bk, pawn);
    if (!won[black_moves] && black_loses(wk, bk, pawn)) {
      won[black_moves] = true;
      changed = true;
    }
    return changed;
  }

  [[nodiscard]] bool white_wins(Square wk, Square bk, Square pawn) const {
    const Square step = pawn + 8;
    if (step != wk && step != bk) {
      if (rules::rank_of(step) == 7) {
        const bool held = rules::contains(rules::king_attacks(wk), step);
        const bool hit = rules::contains(rules::king_attacks(bk), step);
        if (held || !hit) return true;
      } else {
        if (won[place(rules::black, wk, bk, step)]) return true;
        const Square leap = step + 8;
        if (rules::rank_of(pawn) == 1 && leap != wk && leap != bk &&
            won[place(rules::black, wk, bk, leap)]) {
          return true;
        }
      }
    }
    Bitboard moves = rules::king_attacks(wk) & ~rules::king_attacks(bk) & ~bit(pawn);
    while (moves != 0) {
      if (won[place(rules::black, rules::take_first(moves), bk, pawn)]) return true;
    }
    return false;
  }

  [[nodiscard]] bool black_loses(Square wk, Square bk, Square pawn) const {
    Bitboard moves = rules::king_attacks(bk) & ~rules::king_attacks(wk) &
                     ~rules::pawn_attacks(rules::white, pawn);
    const bool any = moves != 0;
    while (moves != 0) {
      const Square to = rules::take_first(moves);
      if (to == pawn || !won[place(rules::white, wk, to, pawn)]) return false;
    }
    return any || rules::contains(rules::pawn_attacks(rules::white, pawn), bk);
  }
};

}  // namespace

bool pawn_wins(Color strong, Square strong_king, Square pawn, Square weak_king,
               Color side_to_move) {
  static const Solver solver;
  int flip = strong == rules::white ? 0 : 56;
  if (rules::file_of(pawn) > 3) flip ^= 7;
  const auto seen = [flip](Square s) { return static_cast<Square>(s ^ flip); };
  const Color side = side_to_move == strong ? rules::white : rules::black;
  return solver.won[place(side, seen(strong_king), seen(weak_king), seen(pawn))];
}

}  // namespace kairos::search
