// The learned evaluation at work: integers only, the same on every machine.
//
// The first layer's sums for one side's view (`Sums`) belong to a board. They are brought to
// another board by taking away and adding the men in which the two differ, so it does not matter
// where they come from: any board with the same view is a right beginning, a near one a cheap one.
// Where the own king has changed its region the sums start from those last made for that region.
//
// The file of weights (weights.bin, made by scripts/learn) is part of the program and lies in
// memory as it does on disk.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

#include "network_shape.hpp"

namespace kairos::search {

using Columns = std::array<std::int16_t, network_width>;

// The file, little-endian. Fixed point: see network_shape.hpp.
struct NetworkWeights {
  std::array<char, 64> head;  // "kairos net 2" and zeros
  std::array<Columns, feature_count> layer;
  Columns bias;
  std::array<std::array<Columns, 2>, output_buckets> output;  // of the side to move, of the other
  std::array<std::int32_t, output_buckets> output_bias;
};

// Those of the program.
const NetworkWeights& network_weights();

class Network {
 public:
  // The weights must outlive it.
  explicit Network(const NetworkWeights& weights = network_weights());

  // In centipawns from the side to move, not yet held within bounds. `ply` counts from the root of
  // the search: sums are looked for near it.
  int evaluate(const rules::Position& position, int ply);

 private:
  struct Sums {
    alignas(64) Columns columns;
    std::array<rules::Piece, rules::square_count> board;
    View view;
  };
  using Pair = std::array<Sums, 2>;  // by colour

  const Sums& bring_up(const rules::Position& position, rules::Color side, std::size_t ply);

  const NetworkWeights& weights_;
  std::vector<Pair> by_ply_;
  std::array<std::array<Sums, std::size_t{2} * king_regions>, 2>
      by_region_;  // colour; region, flip
};

}  // namespace kairos::search
