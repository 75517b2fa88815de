// Thinking time against what hung on the move, over a player's games. Internal to habits.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "kairos/habits/decisions.hpp"
#include "kairos/habits/season.hpp"

namespace kairos::habits {

// How long one move took.
struct Think {
  int ply = 0;
  int left = -1;   // before it, seconds; -1: not known
  int spent = -1;  // for it; -1: not known
};
// From the second move of a side on.
Think think_at(const study::Study& study, int ply);

class ClockCount {
 public:
  ClockCount();
  // `decisions`: the side's in this study.
  void add(const study::Study& study, std::span<const Decision> decisions);
  [[nodiscard]] Clock counted() const;

 private:
  std::uint64_t games_ = 0;
  std::vector<TimeBand> by_left_, by_spent_;
};

// The half-moves after a long think on which little hung (season.hpp), among these decisions.
std::vector<Think> long_thinks_of(const study::Study& study, rules::Color side,
                                  std::span<const Decision> decisions);
// Whether a moment of the side's is an error of its that was made quickly.
bool is_quick_error(const study::Study& study, rules::Color side, const study::Moment& moment);

}  // namespace kairos::habits
