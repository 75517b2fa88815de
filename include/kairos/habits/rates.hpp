// How exactly people play: what their moves lose against the best, from the surveys of studies.
//
// Measured as M. Guid and I. Bratko do (Computer Analysis of World Chess Champions, ICGA Journal
// 29(2), 2006): the score of the best move less that of the move played; moves before the twelfth
// are left out, and so are decisions where both scores lie beyond two pawns on the same side or on
// different ones; a loss of more than a pawn is a blunder (the last two bounds are from memory).
// Mates, and what lies beyond, count as ten pawns. Beside it the errors by expectation that habits
// count. Where there is but one legal move nothing is decided.
#pragma once

#include <cstdint>
#include <string>

#include "kairos/habits/habit.hpp"

namespace kairos::habits {

struct RateRule {
  int first_move = 12;                   // numbered as in the game
  int decided = 200;                     // centipawns
  int blunder = 100;                     // centipawns: a loss beyond it
  double error_cost = usual_error_cost;  // least loss of expectation that is an error
};

// A mean per decision. Decisions of one game are not independent, so its error is that of a ratio
// over games (W. G. Cochran, Sampling Techniques, 1977, section 2.11).
class MeanByGame {
 public:
  void add_game(double decisions, double sum);
  [[nodiscard]] double mean() const;
  [[nodiscard]] double margin() const;  // half of the 95 % interval; 0 for a single game

 private:
  double games_ = 0, n_ = 0, x_ = 0, nn_ = 0, nx_ = 0, xx_ = 0;
};

struct PlayerRates {
  std::string name;         // as in the tags
  std::uint64_t games = 0;  // with decisions that count
  std::uint64_t decisions = 0;
  MeanByGame loss;      // pawns
  MeanByGame blunders;  // shares of decisions
  MeanByGame errors;
  MeanByGame best;  // the survey's first choice was played
};

}  // namespace kairos::habits
