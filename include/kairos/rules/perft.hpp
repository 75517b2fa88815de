// Perft: how many sequences of legal moves of a given length there are. Sequences cut short by mate
// or stalemate do not count. The usual check of a move generator against published counts, and of
// its speed: leaves are counted at the last ply without listing them, and nothing is remembered
// between positions, so the time is that of generating and playing moves.
#pragma once

#include <cstdint>
#include <string_view>
#include <utility>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::rules {

// Depth 0 counts 1. Depth is at least 0.
std::uint64_t perft(const Position& p, int depth);
// The count behind each legal first move, in the generator's order; depth at least 1.
std::vector<std::pair<Move, std::uint64_t>> divide(const Position& p, int depth);

// A position with its known counts, as a line of a file: "FEN ;D1 20 ;D2 400". A fault (that of the
// FEN, or epd_counts) where anything else stands there.
inline constexpr int most_perft_depth = 20;  // far more than anybody can wait for
struct PerftLine {
  struct Count {
    int depth = 0;
    std::uint64_t nodes = 0;
  };
  Position position = Position::start();
  std::vector<Count> counts;  // at least one
};
base::Result<PerftLine> read_perft_line(std::string_view text);

}  // namespace kairos::rules
