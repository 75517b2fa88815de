// Counts the rates of all players over studies, each game once.
//
// Memory holds some hundred bytes a player and eight bytes a game.
#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "kairos/habits/rates.hpp"
#include "kairos/study/study.hpp"

namespace kairos::habits {

class RateCount {
 public:
  explicit RateCount(RateRule rule) : rule_(rule) {}
  void add(const study::Study& study);  // a game that was added before does not count again
  // Smallest mean loss first, then by name; those with at least so many games.
  [[nodiscard]] std::vector<PlayerRates> listed(std::uint64_t least_games) const;

 private:
  void add_side(const study::Study& study, rules::Color side);

  RateRule rule_;
  std::set<std::uint64_t> seen_;
  std::map<std::string, PlayerRates> by_name_;
};

}  // namespace kairos::habits
