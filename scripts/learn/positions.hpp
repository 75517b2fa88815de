// Positions to learn from, unpacked from games: 32 bytes each, so that tens of millions fit in
// memory.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "kairos/rules/position.hpp"

namespace kairos::learn {

struct Sample {
  std::uint64_t occupied = 0;
  std::array<std::uint8_t, 16> men{};  // of the occupied squares in order, four bits each
  std::int16_t score = 0;              // centipawns, from the side to move
  std::uint8_t half_points = 1;        // of the side to move: 0, 1, 2
  std::uint8_t black_to_move = 0;
  std::uint32_t game = 0;
};
static_assert(sizeof(Sample) == 32);

Sample pack(const rules::Position& position);

// The features of both sides' views, the side to move first; `count` of each.
struct Features {
  std::array<std::array<std::uint16_t, 32>, 2> of{};
  int count = 0;
};
Features features_of(const Sample& sample);

// Quiet positions of the games in a file: not in check, the move chosen neither a capture nor a
// promotion, the score within `decided`. `first_game` numbers the games. Appends; false when the
// file cannot be read.
inline constexpr int decided = 3000;
bool read_samples(const std::string& path, std::uint32_t first_game, std::vector<Sample>& samples);

}  // namespace kairos::learn
