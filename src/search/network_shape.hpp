// The shape of the learned evaluation: what the network sees of a position, and how its numbers are
// stored. Shared by the network that plays (network.hpp) and the tool that trains it.
//
// The first layer sees the board twice, with the eyes of each side: ranks are turned so that the
// side's own men start below, files so that its own king stands on files a to d. A feature is a man
// on a square, for each region that the own king may be in; a position has as many features as men.
// What the layer makes of them is clamped, squared, and summed up by weights chosen by the amount
// of material (Yu Nasu, Efficiently Updatable Neural-Network-based Evaluation Functions, 2018).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "kairos/rules/piece.hpp"
#include "kairos/rules/square.hpp"

namespace kairos::search {

inline constexpr int network_width = 512;  // outputs of the first layer, for one side's view
inline constexpr int king_regions = 4;
inline constexpr int features_a_region = 2 * rules::piece_type_count * rules::square_count;
inline constexpr int feature_count = king_regions * features_a_region;
inline constexpr int output_buckets = 8;

// Fixed point: 1.0 is `layer_one` in the first layer, `output_one` in the output weights, and the
// output's unit is worth so many centipawns.
inline constexpr int layer_one = 255;
inline constexpr int output_one = 1024;
inline constexpr int output_centipawns = 400;

// The own king's region, its square turned as above: the two corners of the wing are told apart
// near home, where kings live, and less and less further up.
constexpr int king_region(rules::Square turned) {
  const int file = rules::file_of(turned), rank = rules::rank_of(turned);
  return rank == 0 ? (file < 2 ? 0 : 1) : rank < 3 ? 2 : 3;
}

// How one side looks at the board: its own king's region and how squares are turned.
struct View {
  std::uint8_t turn = 0;  // exclusive or with a square
  std::uint8_t region = 0;

  friend constexpr bool operator==(View, View) = default;
};

constexpr View view_of(rules::Color side, rules::Square own_king) {
  const int upright = side == rules::white ? own_king : own_king ^ 56;
  const int flip = (upright & 7) >= 4 ? 7 : 0;
  const auto turned = static_cast<rules::Square>(upright ^ flip);
  return {static_cast<std::uint8_t>((side == rules::white ? 0 : 56) ^ flip),
          static_cast<std::uint8_t>(king_region(turned))};
}

constexpr int feature_of(View view, rules::Color side, rules::Piece man, rules::Square square) {
  const int kind = rules::type_of(man) +
                   (rules::color_of(man) == side ? 0 : static_cast<int>(rules::piece_type_count));
  return view.region * features_a_region + kind * rules::square_count + (square ^ view.turn);
}

// Which output weights count, by the men on the board (2 to 32).
constexpr int bucket_of(int men) {
  return (men - 2) * output_buckets / 31;
}

}  // namespace kairos::search
