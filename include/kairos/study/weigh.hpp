// One move of a position against the best: what it is worth, and in plain words why.
//
// The words are made from what is proved (spoils.hpp) and from where the sides stand by expectation
// (expectation.hpp); where nothing is proved they say less. Scores are centipawns from the side
// that makes the move. Pure functions.
#pragma once

#include <string>
#include <vector>

#include "kairos/study/judge.hpp"

namespace kairos::study {

// Moves that cost less than this are as good as the best, for all that a search can tell.
inline constexpr double even_cost = 0.05;

struct Weighed {
  rules::Move move;
  search::Score score = 0;
  double expectation = 0;         // of the side that makes the move
  double cost = 0;                // expectation of the best move minus that, never below 0
  std::vector<rules::Move> line;  // from the move on: what shows the words, or best play
  bool is_good = false;           // as good as the best, and not mated where the best is not
  std::string words;              // "wins a knight", "loses the queen: 23... Nxd4", "holds"
};

// `best_score` is that of the best move, judged with as much effort.
Weighed weigh(const rules::Position& position, rules::Move move, const Judgement& judgement,
              search::Score best_score);

}  // namespace kairos::study
