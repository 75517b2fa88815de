// Positions to learn from, unpacked from games: 32 bytes each, so that tens of millions fit in
// memory.
#pragma once

#include <array>
#include <cstdint>
#include <fstream>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "kairos/rules/position.hpp"

namespace kairos::learn {

inline constexpr std::uint8_t no_result = 3;  // the position is of no game

struct Sample {
  std::uint64_t occupied = 0;
  std::array<std::uint8_t, 16> men{};  // of the occupied squares in order, four bits each
  std::int16_t score = 0;              // centipawns, from the side to move
  std::uint8_t half_points = 1;        // of the side to move: 0, 1, 2; or `no_result`
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

// Quiet: not in check, the move chosen neither a capture nor a promotion, the score within
// `decided`.
inline constexpr int decided = 3000;
bool teaches(const rules::Position& position, rules::Move chosen, int score);

// Samples as they lie in memory, behind the line "kairos positions 1\n".
class SampleWriter {
 public:
  explicit SampleWriter(const std::string& path);
  void write(std::span<const Sample> samples);
  [[nodiscard]] bool good() const { return file_.good(); }

 private:
  std::ofstream file_;
};

// Appends the samples of a file of either form: of packed games the quiet positions, numbered from
// `first_game` on. False when the file cannot be read.
bool read_samples(const std::string& path, std::uint32_t first_game, std::vector<Sample>& samples);

// Appends the samples of several files in the order named, each file's games numbered on from the
// last one before; up to `threads` files are read at once, which changes nothing in what comes out.
// Returns the first file that cannot be read, or nothing.
std::optional<std::string> read_samples(std::span<const std::string> paths, unsigned threads,
                                        std::vector<Sample>& samples);

}  // namespace kairos::learn
