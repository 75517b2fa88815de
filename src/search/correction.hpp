// Correction history: by how much searches found positions better or worse than their static score,
// remembered for positions that are alike.
//
// Alike means: the same side to move, and the same pawns or the same pieces of one colour. Costs
// about 100 KB; one a searcher.
#pragma once

#include <array>
#include <cstdint>

#include "kairos/rules/position.hpp"

#include "evaluator.hpp"

namespace kairos::search {

class CorrectionHistory {
 public:
  void clear() { corrections_ = {}; }
  // The static score, bettered by what was learnt where it is but an estimate.
  [[nodiscard]] Score corrected(const rules::Position& p, Evaluation evaluation) const;
  // A search `depth` plies deep found the corrected score to be off by `error` centipawns.
  void learn(const rules::Position& p, int depth, Score error);

 private:
  static constexpr std::size_t kinds = 3;  // pawns, White's pieces, Black's pieces
  static constexpr int bits = 13;
  using Places = std::array<std::size_t, kinds>;
  static Places places_of(const rules::Position& p);

  // By side to move, kind and place.
  std::array<std::array<std::array<std::int16_t, 1 << bits>, kinds>, 2> corrections_{};
};

}  // namespace kairos::search
