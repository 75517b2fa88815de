// What the model of players is given of a position, and what it says. Plain data.
//
// Expectations are those of the side to move, 0 lost .. 1 won, after the move. They come from
// looks of three lengths at all legal moves (study/all_moves.hpp): what a move seems to be worth at
// a glance, soon and in the end. A share is the part, 0 .. 1, of the players of a rating who would
// play a move; the shares of all legal moves of a position add up to 1.
#pragma once

#include <vector>

#include "kairos/rules/move.hpp"

namespace kairos::people {

struct Judged {
  rules::Move move;
  double at_a_glance = 0;
  double soon = 0;
  double in_the_end = 0;

  friend bool operator==(const Judged&, const Judged&) = default;
};

// What was played before: "no move" where it is not known.
struct Before {
  rules::Move last;        // of the opponent
  bool last_took = false;  // whether that was a capture
  rules::Move own_last;    // the move before it, of the side to move
};

struct Shares {
  std::vector<double> of;     // one for each of the moves judged, in their order
  bool extrapolated = false;  // the rating is below (or above) those that the model was fitted on
};

}  // namespace kairos::people
