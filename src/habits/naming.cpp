// What stands out beyond what many trials bring by chance is worse or better; what might with more
// games is perhaps. Naming goes down the list, the surest first, and tries the candidates again as
// those named have left them: circumstances overlap, and one that stands out in what it shares with
// another alone says nothing new. Tests: tests/habits/find_test.cpp, expectation_test.cpp.
#include "naming.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "kairos/habits/statistics.hpp"

namespace kairos::habits {

namespace {

// What is not sure yet is worth a word from here on.
constexpr double perhaps_times = 1.3, perhaps_p = 0.2;
constexpr std::size_t most_unsure = 3;
constexpr std::uint64_t most_seasons = 4;  // nobody waits for more times the games there are
constexpr std::size_t most_examples = 3;
constexpr std::uint64_t least_of_years = 50;
constexpr int most_spans = 8;

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

// Whether the topic stands out in the same way in `rest`, what those named before have left.
bool stands_out(const Tested& t, const std::vector<Tested>& rest, double q) {
  const auto at = std::find_if(rest.begin(), rest.end(),
                               [&](const Tested& other) { return other.topic == t.topic; });
  if (at == rest.end() || at->habit.adjusted > q || !at->holds_by_game) return false;
  return (at->multiple > 1) == (t.multiple > 1);
}

// Those of `candidates` that say something new, the surest named first. The others are not tried
// again, so they do not count for the false discovery rate any more.
std::vector<Tested> named(std::vector<Tested> candidates, const Standard& standard) {
  std::sort(candidates.begin(), candidates.end(), [](const Tested& a, const Tested& b) {
    return a.p != b.p ? a.p < b.p : a.habit.words < b.habit.words;
  });
  std::vector<Tested> all;
  std::vector<TopicId> ids;
  std::vector<Tested> rest;
  for (const Tested& t : candidates) {
    if (all.size() == standard.most) break;
    if (!ids.empty() && !stands_out(t, rest, standard.q)) continue;
    all.push_back(t);
    ids.push_back(t.topic);
    rest = standard.test(ids);
    std::erase_if(rest, [&](const Tested& r) { return !is_among(r, candidates); });
    adjust(rest);
  }
  return all;
}

bool most_first(const Tested& a, const Tested& b) {
  return a.habit.times != b.habit.times ? a.habit.times > b.habit.times
                                        : a.habit.words < b.habit.words;
}

}  // namespace

bool has(const Decision& d, TopicId topic) {
  return std::find(d.topics.begin(), d.topics.end(), topic) != d.topics.end();
}

bool has_any(const Decision& d, const std::vector<TopicId>& topics) {
  return std::any_of(topics.begin(), topics.end(), [&](TopicId t) { return has(d, t); });
}

Rate rate_of(Decisions decisions) {
  const auto errors =
      std::count_if(decisions.begin(), decisions.end(), [](const Decision& d) { return d.error; });
  return {static_cast<std::uint64_t>(errors), decisions.size()};
}

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

std::string words_of(const Topics& topics, TopicId topic) {
  const Topics::Topic& t = topics.all()[topic];
  if (t.among) return topics.all()[*t.among].words + ", by " + t.words;
  return t.is_flaw() ? "by " + t.words : t.words;
}

void adjust(std::vector<Tested>& all) {
  std::vector<double> p_values;
  for (const Tested& t : all) p_values.push_back(t.p);
  const std::vector<double> adjusted = adjusted_for_many(p_values);
  for (std::size_t i = 0; i < all.size(); ++i) all[i].habit.adjusted = adjusted[i];
}

std::uint64_t rounded(std::uint64_t number) {
  std::uint64_t unit = 1;
  while (number / unit >= 100) unit *= 10;
  return (number + unit / 2) / unit * unit;
}

std::uint64_t games_beyond(double needed, std::uint64_t games) {
  const double more = std::ceil(needed) - static_cast<double>(games);
  return more <= 0 ? 0 : rounded(static_cast<std::uint64_t>(more));
}

void name_habits(FoundHabits& found, const std::vector<Tested>& all, const Standard& standard,
                 Decisions player, const Topics& topics) {
  Habits& h = found.habits;
  std::vector<Tested> worse, better, perhaps;
  for (const Tested& t : all) {
    const bool sure = t.habit.adjusted <= standard.q && t.holds_by_game;
    if (sure && t.multiple > std::max(1.0, standard.overall)) worse.push_back(t);
    if (sure && t.multiple < std::min(1.0, standard.overall)) better.push_back(t);
    if (!sure && t.multiple >= perhaps_times && t.p <= perhaps_p) perhaps.push_back(t);
  }
  worse = named(std::move(worse), standard);
  std::sort(worse.begin(), worse.end(), most_first);
  for (Tested& t : worse) {
    t.habit.examples = examples_of(player, t.topic);
    t.habit.years = years_of(player, t, topics);
    found.habit_topics.push_back(t.topic);
    h.habits.push_back(std::move(t.habit));
  }
  better = named(std::move(better), standard);
  std::sort(better.rbegin(), better.rend(), most_first);
  for (Tested& t : better) {
    t.habit.years = years_of(player, t, topics);
    found.strength_topics.push_back(t.topic);
    h.strengths.push_back(std::move(t.habit));
  }
  std::sort(perhaps.begin(), perhaps.end(), most_first);
  for (const Tested& t : perhaps) {
    if (h.unsure.size() == most_unsure) break;
    const std::uint64_t more = standard.more_games(t, all.size());
    if (more > most_seasons * h.games) continue;
    h.unsure.push_back(t.habit);
    h.unsure.back().more_games = more;
  }
}

}  // namespace kairos::habits