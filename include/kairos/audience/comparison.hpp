// Moves of one position that people have called out, side by side. Plain data, made by compare.hpp
// and worded by report/comparison.hpp. Scores and expectations are of the side to move, as in
// study/weighed.hpp.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kairos/base/diagnostics.hpp"
#include "kairos/rules/position.hpp"
#include "kairos/study/weighed.hpp"

namespace kairos::audience {

// A move as somebody has called it out, or why it is none.
struct CalledMove {
  rules::Move move;  // "no move" where it is none that can be played
  // Of a refused one: the phrase in short ("Rxe4"), and what is wrong with it.
  std::string text{};
  base::Code problem = base::Code::not_a_move;
  std::string why{};
  bool is_of_the_other = false;  // the side that is not to move could play it
};

// What players of a rating would play (people/shares.hpp).
struct Level {
  int rating = 0;
  std::vector<double> shares;  // of `weighed`, in its order
  double share_of_best = 0;
  bool extrapolated = false;
};

struct Comparison {
  rules::Position position = rules::Position::start();
  std::vector<CalledMove> called;  // in order; empty: all legal moves are ranked
  // The called ones that can be played, in their order; or all, the best first.
  std::vector<study::Weighed> weighed;
  study::Weighed best;           // perhaps none of the called ones
  std::optional<Level> level{};  // where it was asked for
};

}  // namespace kairos::audience
