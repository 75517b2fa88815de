// Errors by player, counted over the collection.
//
// An error is a swing. Moves of one game are not independent, so the interval is that of the share
// of games with at least one error (Wilson, 95 %).
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "kairos/base/interval.hpp"
#include "kairos/study/study.hpp"

namespace kairos::report {

struct PlayerErrors {
  std::string name;
  std::uint64_t games = 0;
  std::uint64_t moves = 0;
  std::uint64_t errors = 0;
  std::uint64_t games_with_error = 0;

  [[nodiscard]] base::Interval interval() const;
};

class PlayerCount {
 public:
  void add(const study::Study& study);
  // Those whose errors are surest first (by the lower end of the interval), then by name. `only`,
  // unless empty, leaves out players whose name does not contain it (letter case aside).
  [[nodiscard]] std::vector<PlayerErrors> listed(std::string_view only = "") const;

 private:
  void add_side(const study::Study& study, rules::Color side);
  std::map<std::string, PlayerErrors> by_name_;
};

}  // namespace kairos::report
