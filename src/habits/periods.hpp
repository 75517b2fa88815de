// How games fall into periods of time. Internal to habits.
//
// By event, where there are at most `most_periods` of them with `least_games` games each on the
// average: that is how a player looks back. Else by half-years, and where those are too many by
// spans of years. The same event more than half a year later is another: it was held again. Dates
// may be unknown in part ("2026.??.??").
#pragma once

#include <string>
#include <vector>

#include "kairos/habits/season.hpp"

namespace kairos::habits {

inline constexpr int most_periods = 12;
inline constexpr int least_games = 3;

class Periods {
 public:
  // `half_points`: what the player made of the game, 0 to 2; -1: it has no result.
  void add(const study::GameFacts& facts, int half_points, std::uint64_t swings);
  // In the order of time, what has no date last; none where there would be but one.
  [[nodiscard]] std::vector<Period> listed() const;

 private:
  struct Game {
    std::string event;
    int month = -1;  // since year 0; -1: the year is not known
    Period counts;
  };
  [[nodiscard]] std::vector<Period> by_event() const;
  [[nodiscard]] std::vector<Period> by_time() const;

  std::vector<Game> games_;
};

}  // namespace kairos::habits
