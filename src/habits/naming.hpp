// From topics tested to habits named, whatever they were tested against. Internal to habits.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "kairos/habits/find.hpp"

namespace kairos::habits {

using Decisions = std::span<const Decision>;

constexpr double power = 0.8;  // of saying how many games would do

struct Tested {
  TopicId topic = 0;
  Habit habit;
  double multiple = 1;  // as many errors as by the standard, not shrunk
  double p = 1;
  bool holds_by_game = true;  // the interval by game, where there is one, leaves 1 out
};

// What a player is measured by.
struct Standard {
  // All topics that come up often enough, tested as these have left them, and adjusted.
  std::function<std::vector<Tested>(const std::vector<TopicId>& named)> test{};
  double overall = 1;  // the multiple of all decisions together
  double q = 0;
  std::size_t most = 0;  // of each list
  // How many more games would tell, were it as it seems, with so many topics tried.
  std::function<std::uint64_t(const Tested&, std::size_t tries)> more_games{};
};

bool has(const Decision& decision, TopicId topic);
bool has_any(const Decision& decision, const std::vector<TopicId>& topics);
Rate rate_of(Decisions decisions);
// The rates of all topics, without the decisions that have one of `without`.
std::vector<Rate> rates_of(Decisions decisions, const Topics& topics,
                           const std::vector<TopicId>& without);
std::string words_of(const Topics& topics, TopicId topic);
// Adjusts the p-values for the number of topics in the list.
void adjust(std::vector<Tested>& all);
// Two digits: it is only an estimate.
std::uint64_t rounded(std::uint64_t number);
// So many games in all, and so many beyond those there are.
std::uint64_t games_beyond(double needed, std::uint64_t games);

// Sorts `all` into worse, better and perhaps, and fills in the lists of `found`.
void name_habits(FoundHabits& found, const std::vector<Tested>& all, const Standard& standard,
                 Decisions player, const Topics& topics);

}  // namespace kairos::habits
