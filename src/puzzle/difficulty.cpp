#include "difficulty.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/study/motifs.hpp"
#include "kairos/study/search_move.hpp"

namespace kairos::puzzle {

namespace {

// Points of hardness; a level for every `points_a_level` of them.
constexpr int points_a_level = 3;
constexpr int for_each_further_move = 1, most_for_length = 4;
constexpr int for_quiet = 2;
constexpr int for_sacrifice = 2;
constexpr int for_many_replies = 1, many_replies = 6;
constexpr int most_for_tries = 3;

// Depths (plies) from which on the key must be seen to earn one, two, three points.
constexpr int depth_for_one = 4, depth_for_two = 7, depth_for_three = 10;

int points_for_depth(int depth) {
  if (depth >= depth_for_three) return 3;
  if (depth >= depth_for_two) return 2;
  return depth >= depth_for_one ? 1 : 0;
}

}  // namespace

int settled_depth(const search::Verdict& verdict, rules::Move key) {
  int depth = verdict.depth;
  for (auto it = verdict.history.rbegin(); it != verdict.history.rend(); ++it) {
    if (it->best != key) break;
    depth = it->depth;
  }
  return depth;
}

int difficulty_of(const Puzzle& puzzle) {
  const rules::Move key = puzzle.line.front();
  const int moves = static_cast<int>(puzzle.line.size() + 1) / 2;
  const int tries = static_cast<int>(puzzle.tries.size());
  int points = std::min(most_for_length, (moves - 1) * for_each_further_move);
  points += points_for_depth(puzzle.settled_depth) + std::min(most_for_tries, tries - 1);
  if (study::is_quiet(puzzle.position, key)) points += for_quiet;
  if (study::is_sacrifice(puzzle.position, key)) points += for_sacrifice;
  if (rules::count_legal_moves(puzzle.position.after(key)) >= many_replies) {
    points += for_many_replies;
  }
  return std::clamp(1 + points / points_a_level, 1, 5);
}

}  // namespace kairos::puzzle
