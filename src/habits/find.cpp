// Counting, testing, naming. One pass over the decisions gives the rates of all topics; the test
// and its adjustment sort them into worse, better and perhaps; naming goes down the list and tries
// the candidates again without the decisions already spoken for. Tests: tests/habits/find_test.cpp.
#include "kairos/habits/find.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "kairos/habits/statistics.hpp"

namespace kairos::habits {

namespace {

using Decisions = std::span<const Decision>;

constexpr double power = 0.8;
// What is not sure yet is worth a word from here on.
constexpr double perhaps_times = 1.3, perhaps_p = 0.2;
constexpr std::size_t most_unsure = 3;
constexpr std::uint64_t most_seasons = 4;  // nobody waits for more times the games there are
constexpr std::size_t most_examples = 3;
constexpr std::uint64_t least_of_years = 50;
constexpr int most_spans = 8;

struct Tested {
  TopicId topic = 0;
  Habit habit;
  double p = 1;
};

bool has(const Decision& d, TopicId topic) {
  return std::find(d.topics.begin(), d.topics.end(), topic) != d.topics.end();
}

bool has_any(const Decision& d, const std::vector<TopicId>& topics) {
  return std::any_of(topics.begin(), topics.end(), [&](TopicId t) { return has(d, t); });
}

Rate whole(Decisions decisions) {
  const auto errors =
      std::count_if(decisions.begin(), decisions.end(), [](const Decision& d) { return d.error; });
  return {static_cast<std::uint64_t>(errors), decisions.size()};
}

// The rates of all topics, without the decisions that have one of `without`.
std::vector<Rate> rates_of(Decisions decisions, const Topics& topics,
                           const std::vector<TopicId>& without) {
  std::vector<Rate> rates(topics.all().size());
  std::uint64_t counted = 0;
  for (const Decision& d : decisions) {
    if (has_any(d, without)) continue;
    ++counted;
    for (const TopicId topic : d.topics) {
      ++rates[topic].decisions;
      if (d.error) ++rates[topic].errors;
    }
  }
  for (std::size_t i = 0; i < rates.size(); ++i) {
    const Topics::Topic& topic = topics.all()[i];
    if (topic.is_flaw()) rates[i].decisions = topic.among ? rates[*topic.among].decisions : counted;
  }
  return rates;
}

// For the number of topics in the list.
void adjust(std::vector<Tested>& all) {
  std::vector<double> p_values;
  for (const Tested& t : all) p_values.push_back(t.p);
  const std::vector<double> adjusted = adjusted_for_many(p_values);
  for (std::size_t i = 0; i < all.size(); ++i) all[i].habit.adjusted = adjusted[i];
}

// All topics that come up often enough in decisions without `without`.
std::vector<Tested> tested(Decisions player, Decisions field, const Topics& topics,
                           const FindOptions& options, const std::vector<TopicId>& without = {}) {
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
    t.habit.words = topic.among       ? topics.all()[*topic.among].words + ", by " + topic.words
                    : topic.is_flaw() ? "by " + topic.words
                                      : topic.words;
    t.habit.is_flaw = topic.is_flaw();
    t.habit.player = own[i];
    t.habit.field = theirs[i];
    t.p = exact_test(own[i], theirs[i]);
    all.push_back(std::move(t));
  }
  adjust(all);
  return all;
}

// A rate of nought has no multiple: half an error stands for it.
double safe_share(const Rate& rate) {
  return std::max(static_cast<double>(rate.errors), 0.5) / static_cast<double>(rate.decisions);
}

double multiple(const Rate& player, const Rate& field) {
  return safe_share(player) / safe_share(field);
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

// The player's rate by year, or by spans of years so that there are at most eight.
std::vector<Years> years_of(Decisions player, const Tested& t, const Topics& topics) {
  const std::optional<TopicId> among = topics.all()[t.topic].among;
  std::map<int, Rate> by_year;
  for (const Decision& d : player) {
    const bool with = has(d, t.topic);
    if (d.year == 0 || !(among ? has(d, *among) : with || t.habit.is_flaw)) continue;
    Rate& rate = by_year[d.year];
    ++rate.decisions;
    if (d.error && with) ++rate.errors;
  }
  if (by_year.empty()) return {};
  const int first = by_year.begin()->first, last = by_year.rbegin()->first;
  const int span = (last - first) / most_spans + 1;
  std::vector<Years> spans;
  for (const auto& [year, rate] : by_year) {
    const int begin = first + (year - first) / span * span;
    if (spans.empty() || spans.back().first != begin) {
      spans.push_back({begin, std::min(last, begin + span - 1), {}});
    }
    spans.back().rate.errors += rate.errors;
    spans.back().rate.decisions += rate.decisions;
  }
  std::erase_if(spans, [](const Years& y) { return y.rate.decisions < least_of_years; });
  if (spans.size() < 2) spans.clear();
  return spans;
}

// Verified ones first, then by cost.
std::vector<Example> examples_of(Decisions player, TopicId topic) {
  std::vector<const Decision*> errors;
  for (const Decision& d : player) {
    if (d.error && has(d, topic)) errors.push_back(&d);
  }
  std::sort(errors.begin(), errors.end(), [](const Decision* a, const Decision* b) {
    if (a->verified != b->verified) return a->verified;
    return a->cost != b->cost ? a->cost > b->cost : a->place < b->place;
  });
  std::vector<Example> examples;
  for (const Decision* d : errors) {
    const bool shown = std::any_of(examples.begin(), examples.end(),
                                   [&](const Example& e) { return e.place.game == d->place.game; });
    if (shown) continue;
    examples.push_back({.place = d->place, .cost = d->cost, .verified = d->verified});
    if (examples.size() == most_examples) break;
  }
  return examples;
}

bool is_among(const Tested& t, const std::vector<Tested>& others) {
  return std::any_of(others.begin(), others.end(),
                     [&](const Tested& other) { return other.topic == t.topic; });
}

// Whether the topic stands out in the same way in `rest`, the decisions without those named before.
bool stands_out(const Tested& t, const std::vector<Tested>& rest, double q) {
  const auto at = std::find_if(rest.begin(), rest.end(),
                               [&](const Tested& other) { return other.topic == t.topic; });
  if (at == rest.end() || at->habit.adjusted > q) return false;
  return (at->habit.player.share() > at->habit.field.share()) ==
         (t.habit.player.share() > t.habit.field.share());
}

// Those of `candidates` that say something new, the surest named first. The others are not tried
// again, so they do not count for the false discovery rate any more.
std::vector<Tested> named(std::vector<Tested> candidates, Decisions player, Decisions field,
                          const Topics& topics, const FindOptions& options) {
  std::sort(candidates.begin(), candidates.end(), [](const Tested& a, const Tested& b) {
    return a.p != b.p ? a.p < b.p : a.habit.words < b.habit.words;
  });
  std::vector<Tested> all;
  std::vector<TopicId> ids;
  std::vector<Tested> rest;
  for (const Tested& t : candidates) {
    if (all.size() == options.most) break;
    if (!ids.empty() && !stands_out(t, rest, options.q)) continue;
    all.push_back(t);
    ids.push_back(t.topic);
    rest = tested(player, field, topics, options, ids);
    std::erase_if(rest, [&](const Tested& r) { return !is_among(r, candidates); });
    adjust(rest);
  }
  return all;
}

// Two digits: it is only an estimate.
std::uint64_t rounded(std::uint64_t number) {
  std::uint64_t unit = 1;
  while (number / unit >= 100) unit *= 10;
  return (number + unit / 2) / unit * unit;
}

// How many more games would tell the rate from the field's, were it as it seems.
std::uint64_t more_games(const Habit& h, std::uint64_t games, std::size_t tries,
                         const FindOptions& options) {
  const double field = safe_share(h.field), own = std::min(0.99, safe_share(h.player));
  const auto needed = static_cast<double>(
      decisions_to_tell(own, field, options.q / static_cast<double>(tries), power));
  const double per_game = static_cast<double>(h.player.decisions) /
                          static_cast<double>(std::max<std::uint64_t>(1, games));
  const double more = std::ceil(needed / per_game) - static_cast<double>(games);
  return more <= 0 ? 0 : rounded(static_cast<std::uint64_t>(more));
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
  h.player_rate = whole(player);
  h.field_rate = whole(field);
  std::vector<Tested> all = tested(player, field, topics, options);
  h.circumstances = all.size();
  h.games_for_double = games_for_double(h, options);
  if (all.empty()) return found;
  set_times(all);

  const double overall = multiple(h.player_rate, h.field_rate);
  std::vector<Tested> worse, better, perhaps;
  for (const Tested& t : all) {
    const bool sure = t.habit.adjusted <= options.q;
    const double times = multiple(t.habit.player, t.habit.field);
    if (sure && times > std::max(1.0, overall)) worse.push_back(t);
    if (sure && times < std::min(1.0, overall)) better.push_back(t);
    if (!sure && times >= perhaps_times && t.p <= perhaps_p) perhaps.push_back(t);
  }
  const auto most_first = [](const Tested& a, const Tested& b) {
    return a.habit.times != b.habit.times ? a.habit.times > b.habit.times
                                          : a.habit.words < b.habit.words;
  };
  worse = named(std::move(worse), player, field, topics, options);
  std::sort(worse.begin(), worse.end(), most_first);
  for (Tested& t : worse) {
    t.habit.examples = examples_of(player, t.topic);
    t.habit.years = years_of(player, t, topics);
    found.habit_topics.push_back(t.topic);
    h.habits.push_back(std::move(t.habit));
  }
  better = named(std::move(better), player, field, topics, options);
  std::sort(better.rbegin(), better.rend(), most_first);
  for (Tested& t : better) {
    t.habit.years = years_of(player, t, topics);
    found.strength_topics.push_back(t.topic);
    h.strengths.push_back(std::move(t.habit));
  }
  std::sort(perhaps.begin(), perhaps.end(), most_first);
  for (const Tested& t : perhaps) {
    if (h.unsure.size() == most_unsure) break;
    const std::uint64_t more = more_games(t.habit, games, all.size(), options);
    if (more > most_seasons * games) continue;
    h.unsure.push_back(t.habit);
    h.unsure.back().more_games = more;
  }
  return found;
}

}  // namespace kairos::habits
