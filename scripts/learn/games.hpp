// Games that the core played against itself, packed: what a network learns from.
//
// A file is the line "kairos games 1\n" and then one record a game, numbers little-endian:
//   u8        length of the start position's FEN, then the FEN; 0: the start position
//   u8        White's half points: 0, 1, 2
//   u16       plies, then for each
//     u16     the move (rules::Move::raw)
//     i16     score of the search that chose it, centipawns from the side to move; `no_score` for a
//             move that was drawn by lot or taken from an opening
// A torn last record is normal (a run may be stopped at any time) and left out by the reader.
#pragma once

#include <cstdint>
#include <fstream>
#include <optional>
#include <string>
#include <vector>

#include "kairos/rules/position.hpp"

namespace kairos::learn {

inline constexpr std::int16_t no_score = -32768;

struct PackedGame {
  std::string start_fen;  // empty: the start position
  std::uint8_t half_points = 1;
  std::vector<rules::Move> moves;
  std::vector<std::int16_t> scores;  // one a move
};

class GameWriter {
 public:
  explicit GameWriter(const std::string& path);
  void write(const PackedGame& game);
  [[nodiscard]] bool good() const { return file_.good(); }

 private:
  std::ofstream file_;
};

class GameReader {
 public:
  explicit GameReader(const std::string& path);
  // False when the file cannot be opened or does not begin with the line above.
  [[nodiscard]] bool good() const { return good_; }
  std::optional<PackedGame> next();

 private:
  std::ifstream file_;
  bool good_ = false;
};

}  // namespace kairos::learn
