// Scores: centipawns from the side to move, and forced mates.
//
// A mate for the side to move in n plies is mate_score - n, being mated in n plies is n -
// mate_score, so that nearer mates are greater. Scores of positions that are not mates stay within
// +-max_evaluation. Mate scores of a verdict are found by search, and there may be a shorter mate:
// the proof that there is none is mate.hpp's.
#pragma once

#include <cstdint>

namespace kairos::search {

using Score = int;

inline constexpr Score mate_score = 32000;
inline constexpr int max_ply = 128;
inline constexpr Score min_mate_score = mate_score - 1000;  // any score beyond is a mate
inline constexpr Score max_evaluation = 20000;
inline constexpr Score infinite_score = 32500;
inline constexpr Score draw_score = 0;

constexpr Score mate_in_plies(int plies) {
  return mate_score - plies;
}
constexpr Score mated_in_plies(int plies) {
  return plies - mate_score;
}
constexpr bool is_mate(Score s) {
  return s >= min_mate_score || s <= -min_mate_score;
}
// Full moves to mate, as people count: 3 for "mate in 3", -3 when being mated; 0 when no mate.
constexpr int mate_moves(Score s) {
  if (s >= min_mate_score) return (mate_score - s + 1) / 2;
  if (s <= -min_mate_score) return -((mate_score + s + 1) / 2);
  return 0;
}

}  // namespace kairos::search
