// The history heuristic: how well moves did in earlier searches, whatever the position.
//
// Quiet moves are remembered by colour, from and to; captures by man, square and victim; and, as
// continuation history, by what followed well upon an earlier move of the path. About 1.6 MB; one a
// searcher.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "kairos/rules/move.hpp"
#include "kairos/rules/piece.hpp"

namespace kairos::search {

// How well moves did, each in +-history_limit. New results weigh more the less they are expected.
inline constexpr int history_limit = 16384;

class Histories {
 public:
  using Row = std::array<std::int16_t, 14 * 64>;  // by piece and target square

  Histories();
  void clear();

  [[nodiscard]] static std::size_t cell(rules::Piece piece, rules::Square to) {
    return static_cast<std::size_t>(piece * 64 + to);
  }
  // What followed well upon `piece` going to `to`.
  Row& after(rules::Piece piece, rules::Square to) { return continuations_[cell(piece, to)]; }
  Row& after_nothing() { return continuations_.back(); }

  [[nodiscard]] int quiet(rules::Color c, rules::Move m) const { return quiets_[c][index_of(m)]; }
  [[nodiscard]] int capture(rules::Piece piece, rules::Square to, rules::PieceType victim) const {
    return captures_[cell(piece, to)][victim];
  }
  void learn_quiet(rules::Color c, rules::Move m, int bonus) {
    learn(quiets_[c][index_of(m)], bonus);
  }
  void learn_capture(rules::Piece piece, rules::Square to, rules::PieceType victim, int bonus) {
    learn(captures_[cell(piece, to)][victim], bonus);
  }
  static void learn(std::int16_t& value, int bonus) {
    const int size = bonus < 0 ? -bonus : bonus;
    value = static_cast<std::int16_t>(value + bonus - value * size / history_limit);
  }

 private:
  static std::size_t index_of(rules::Move m) {
    return static_cast<std::size_t>(m.from() * 64 + m.to());
  }

  std::array<std::array<std::int16_t, 4096>, 2> quiets_{};
  std::vector<std::array<std::int16_t, 8>> captures_;
  std::vector<Row> continuations_;
};

}  // namespace kairos::search
