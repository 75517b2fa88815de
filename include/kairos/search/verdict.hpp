// A verdict: what the searcher says of one position, with the effort behind it. Plain data.
//
// Lines are best first. Several lines are all from the last finished iteration, so their scores
// compare; a single one may be a better move that the iteration under way had already found. Scores
// are from the side to move (score.hpp). `history` tells how the first line came about: one entry
// for each finished iteration.
#pragma once

#include <cstdint>
#include <vector>

#include "kairos/rules/move.hpp"
#include "kairos/search/score.hpp"

namespace kairos::search {

struct Line {
  Score score = 0;
  std::vector<rules::Move> moves;  // first the root move; never empty

  friend bool operator==(const Line&, const Line&) = default;
};

struct Iteration {
  int depth = 0;
  std::uint64_t nodes = 0;  // spent when the iteration was finished
  rules::Move best;
  Score score = 0;
  Score second_score = 0;  // of the second line; equal to `score` when only one was asked for

  friend bool operator==(const Iteration&, const Iteration&) = default;
};

struct Verdict {
  std::vector<Line> lines;  // empty only when there is no legal move
  int depth = 0;            // plies of the last finished iteration
  std::uint64_t nodes = 0;
  std::vector<Iteration> history;

  friend bool operator==(const Verdict&, const Verdict&) = default;
};

}  // namespace kairos::search
