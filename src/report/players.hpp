// Errors by player, counted over the collection.
//
// An error is a swing. Moves of one game are not independent, so the interval is that of the share
// of games with at least one error (Wilson, 95 %).
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
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

// RunFacts::player holds the spellings of one name, " / " between them.
std::vector<std::string> spellings(std::string_view player);

class PlayerCount {
 public:
  void add(const study::Study& study);
  [[nodiscard]] std::size_t size() const { return by_name_.size(); }
  [[nodiscard]] std::vector<std::string> names() const;  // in their order
  // Those whose errors are surest first (by the lower end of the interval), then by name. With
  // `only`, the players whose name holds one of these.
  [[nodiscard]] std::vector<PlayerErrors> listed(const std::vector<std::string>& only = {}) const;

 private:
  void add_side(const study::Study& study, rules::Color side);
  std::map<std::string, PlayerErrors> by_name_;
};

}  // namespace kairos::report
