// How much to search and what to report. Plain data.
//
// Effort is counted in nodes (a position entered, in quiescence and in the look for mates by checks
// too), never in time, so the same limits give the same verdict on any machine. `stop` is for
// people who wait (weigh): when it becomes true the search ends as if its nodes had run out; runs
// that must be repeatable leave it null.
#pragma once

#include <atomic>
#include <cstdint>
#include <vector>

#include "kairos/rules/move.hpp"
#include "kairos/search/score.hpp"

namespace kairos::search {

struct Limits {
  std::uint64_t nodes = 1'000'000;
  int depth = max_ply - 1;                   // iterations stop here at the latest
  int lines = 1;                             // best k root moves, each with an exact score
  std::vector<rules::Move> root_moves = {};  // only these are searched; empty: all legal moves
  const std::atomic<bool>* stop = nullptr;
};

}  // namespace kairos::search
