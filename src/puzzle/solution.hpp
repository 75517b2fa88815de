// The solution of a question whose key is known: the line, where it ends, and the reward there.
#pragma once

#include <optional>
#include <vector>

#include "kairos/puzzle/puzzle.hpp"
#include "kairos/search/mate.hpp"

#include "question.hpp"
#include "unique.hpp"

namespace kairos::puzzle {

struct Solution {
  std::vector<rules::Move> line;      // key, reply, ..., ends with a solver's move
  int asked = 0;                      // of its plies those in which every solver's move is unique
  std::vector<rules::Move> if_taken;  // as in Puzzle
  Reward reward = Reward::advantage;
  int mate_moves = 0;      // proved, else 0
  search::Score gain = 0;  // material won at the end, in centipawns, as settled
  Drop drop = Drop::none;
  std::uint64_t nodes = 0;
};

// `nodes` for each solver's move; replies take half of it.
Solution solve(const Question& question, const Answer& answer, std::uint64_t nodes,
               search::Searcher& searcher);

}  // namespace kairos::puzzle
