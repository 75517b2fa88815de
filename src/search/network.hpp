// The learned evaluation at work: integers only, the same on every machine.
//
// The first layer's sums for one side's view (`Sums`) belong to a board. They are brought to another
// board by taking away and adding the men in which the two differ, so it does not matter where they
// come from: any board with the same view is a right beginning, a near one a cheap one. Where the
// own king has changed its region the sums start from those last made for that region.
//
// The file of weights (weights.bin, made by scripts/learn) is part of the program. All numbers are
// little-endian: 64 bytes of head, the text "kairos net 1" and zeros; int16 weights of the first
// layer [feature][column], its biases [column], the output's weights [bucket][view][column], the
// side to move first; int32 output biases [bucket].
#pragma once

#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

#include "network_shape.hpp"

namespace kairos::search {

// The bytes of the weights file, for its checksum.
std::string_view network_bytes();

class Network {
 public:
  Network();

  // In centipawns from the side to move, not yet held within bounds. `ply` counts from the root of
  // the search: sums are looked for near it.
  int evaluate(const rules::Position& position, int ply);

 private:
  struct Sums {
    alignas(64) std::array<std::int16_t, network_width> columns;
    std::array<rules::Piece, rules::square_count> board;
    View view;
  };
  using Pair = std::array<Sums, 2>;  // by colour

  const Sums& bring_up(const rules::Position& position, rules::Color side, std::size_t ply);

  std::vector<Pair> by_ply_;
  std::array<std::array<Sums, std::size_t{2} * king_regions>, 2> by_region_;  // colour; region, flip
};

}  // namespace kairos::search
