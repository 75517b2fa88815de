// Against the field: every topic by the exact test of two rates. What is made of it: naming.cpp.
// Tests: tests/habits/find_test.cpp.
#include "kairos/habits/find.hpp"

#include <algorithm>
#include <cmath>

#include "kairos/habits/statistics.hpp"

#include "naming.hpp"

namespace kairos::habits {

namespace {

// A rate of nought has no multiple: half an error stands for it.
double safe_share(const Rate& rate) {
  return std::max(static_cast<double>(rate.errors), 0.5) / static_cast<double>(rate.decisions);
}

double multiple(const Rate& player, const Rate& field) {
  return safe_share(player) / safe_share(field);
}

// All topics that come up often enough in decisions without `without`.
std::vector<Tested> tested(Decisions player, Decisions field, const Topics& topics,
                           const FindOptions& options, const std::vector<TopicId>& without) {
  const std::vector<Rate> own = rates_of(player, topics, without);
  const std::vector<Rate> theirs = rates_of(field, topics, without);
  // A scan for one player verifies nothing of the others.
  const bool motifs =
      std::any_of(field.begin(), field.end(), [](const Decision& d) { return d.verified; });
  std::vector<Tested> all;
  for (std::size_t i = 0; i < own.size(); ++i) {
    if (std::min(own[i].decisions, theirs[i].decisions) < options.least_decisions) continue;
    if (own[i].errors + theirs[i].errors < options.least_errors) continue;
    const Topics::Topic& topic = topics.all()[i];
    if (topic.kind == TopicKind::motif && !motifs) continue;
    Tested t;
    t.topic = static_cast<TopicId>(i);
    t.habit.words = words_of(topics, t.topic);
    t.habit.is_flaw = topic.is_flaw();
    t.habit.player = own[i];
    t.habit.field = theirs[i];
    t.multiple = multiple(own[i], theirs[i]);
    t.p = exact_test(own[i], theirs[i]);
    all.push_back(std::move(t));
  }
  adjust(all);
  return all;
}

void set_times(std::vector<Tested>& all) {
  std::vector<Rate> rates;
  std::vector<double> centres;
  for (const Tested& t : all) {
    rates.push_back(t.habit.player);
    centres.push_back(std::min(safe_share(t.habit.field), 0.99));
  }
  const double strength = prior_strength(rates, centres);
  for (std::size_t i = 0; i < all.size(); ++i) {
    all[i].habit.times = shrunk(rates[i], centres[i], strength) / centres[i];
  }
}

// How many more games would tell the rate from the field's, were it as it seems.
std::uint64_t more_games(const Habit& h, std::uint64_t games, std::size_t tries,
                         const FindOptions& options) {
  const double field = safe_share(h.field), own = std::min(0.99, safe_share(h.player));
  const auto needed = static_cast<double>(
      decisions_to_tell(own, field, options.q / static_cast<double>(tries), power));
  const double per_game = static_cast<double>(h.player.decisions) /
                          static_cast<double>(std::max<std::uint64_t>(1, games));
  return games_beyond(needed / per_game, games);
}

std::uint64_t games_for_double(const Habits& h, const FindOptions& options) {
  if (h.games == 0 || h.field_rate.errors == 0 || h.circumstances == 0) return 0;
  const double rate = std::min(0.49, h.field_rate.share());
  const auto needed = static_cast<double>(
      decisions_to_tell(2 * rate, rate, options.q / static_cast<double>(h.circumstances), power));
  const double per_game =
      static_cast<double>(h.player_rate.decisions) / static_cast<double>(h.games) / 10;
  return rounded(static_cast<std::uint64_t>(std::ceil(needed / per_game)));
}

}  // namespace

FoundHabits find(Decisions player, Decisions field, const Topics& topics, std::uint64_t games,
                 const FindOptions& options) {
  FoundHabits found;
  Habits& h = found.habits;
  h.games = games;
  h.player_rate = rate_of(player);
  h.field_rate = rate_of(field);
  Standard standard{.q = options.q, .most = options.most};
  standard.test = [&](const std::vector<TopicId>& without) {
    return tested(player, field, topics, options, without);
  };
  std::vector<Tested> all = standard.test({});
  h.circumstances = all.size();
  h.games_for_double = games_for_double(h, options);
  if (all.empty()) return found;
  set_times(all);
  standard.overall = multiple(h.player_rate, h.field_rate);
  standard.more_games = [&](const Tested& t, std::size_t tries) {
    return more_games(t.habit, games, tries, options);
  };
  name_habits(found, all, standard, player, topics);
  return found;
}

}  // namespace kairos::habits
