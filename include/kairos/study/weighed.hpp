// One move of a position against the best: what it is worth, and the reason where one is proved.
// Plain data, made by weigh.hpp and worded by report. Scores are centipawns from the side that
// makes the move.
#pragma once

#include <optional>
#include <vector>

#include "kairos/rules/move.hpp"
#include "kairos/search/score.hpp"
#include "kairos/study/reason.hpp"

namespace kairos::study {

// Moves that cost less than this are as good as the best, for all that a search can tell.
inline constexpr double even_cost = 0.05;

struct Weighed {
  rules::Move move;
  search::Score score = 0;
  search::Score best_score = 0;   // of the best move
  double expectation = 0;         // of the side that makes the move
  double cost = 0;                // expectation of the best move minus that, never below 0
  bool is_good = false;           // as good as the best, and not mated where the best is not
  std::vector<rules::Move> line;  // from the move on: what shows the reason, or best play
  // What a good move (role best), or the reply to another (role reply), does by force. Material
  // only where it is the point.
  std::optional<Reason> reason;
};

}  // namespace kairos::study
