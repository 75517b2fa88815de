// Against what is to be expected: every circumstance by the exact test of unequal chances, given
// all errors of the player; every flaw by its part of the errors, given those errors. What is made
// of it: naming.cpp. Tests: tests/habits/expectation_test.cpp.
#include <algorithm>
#include <map>

#include "kairos/habits/chances.hpp"
#include "kairos/habits/find.hpp"
#include "kairos/habits/statistics.hpp"

#include "calibration.hpp"
#include "naming.hpp"
#include "situation.hpp"

namespace kairos::habits {

namespace {

// Those of one topic, by game.
class Sums {
 public:
  void add(const Decision& d, double expected, double variance, bool error) {
    GameSum& game = games_[d.place.game];
    for (GameSum* sum : {&game, &all_}) {
      sum->expected += expected;
      sum->variance += variance;
      sum->errors += error ? 1 : 0;
    }
  }
  [[nodiscard]] std::vector<GameSum> by_game() const {
    std::vector<GameSum> list;
    for (const auto& [number, sum] : games_) list.push_back(sum);
    return list;
  }
  [[nodiscard]] const GameSum& all() const { return all_; }
  // Around their own mean, whatever that is.
  [[nodiscard]] double scatter() const {
    if (all_.expected <= 0 || all_.errors <= 0) return 1;
    const double times = all_.errors / all_.expected;
    std::vector<GameSum> own = by_game();
    for (GameSum& sum : own) {
      sum.expected *= times;
      sum.variance *= times;
    }
    return scatter_by_game(own);
  }

 private:
  std::map<std::uint32_t, GameSum> games_;
  GameSum all_;
};

// The decisions that have chances, with those of the player at his own level: as many errors as
// there were are expected of each group. Groups are the decisions that have the same of the topics
// named before; without any there is one group.
struct Measured {
  std::vector<Decision> decisions;
  std::vector<double> chances;
  std::vector<std::size_t> groups;  // of each decision, from 0
  std::size_t group_count = 0;
  double scatter = 1;  // by game
};

void set_groups(Measured& m, const std::vector<TopicId>& named) {
  std::map<std::vector<bool>, std::size_t> numbers;
  for (const Decision& d : m.decisions) {
    std::vector<bool> topics;
    for (const TopicId topic : named) topics.push_back(has(d, topic));
    m.groups.push_back(numbers.try_emplace(topics, numbers.size()).first->second);
  }
  m.group_count = numbers.size();
}

void set_chances(Measured& m) {
  std::vector<std::vector<double>> by_group(m.group_count);
  std::vector<std::uint64_t> errors(m.group_count);
  for (std::size_t i = 0; i < m.decisions.size(); ++i) {
    m.chances.push_back(chance_of_error(m.decisions[i]));
    by_group[m.groups[i]].push_back(m.chances[i]);
    errors[m.groups[i]] += m.decisions[i].error ? 1 : 0;
  }
  std::vector<double> times;
  for (std::size_t g = 0; g < m.group_count; ++g) {
    times.push_back(times_to_expect(by_group[g], errors[g]));
  }
  Sums sums;
  for (std::size_t i = 0; i < m.chances.size(); ++i) {
    double& chance = m.chances[i];
    chance = so_many_times(chance, times[m.groups[i]]);
    sums.add(m.decisions[i], chance, chance * (1 - chance), m.decisions[i].error);
  }
  m.scatter = sums.scatter();
}

// Errors of a kind that was named are left out: that kind is all there is to them.
Measured measured(Decisions player, const Topics& topics, const std::vector<TopicId>& named) {
  std::vector<TopicId> flaws, circumstances;
  for (const TopicId topic : named) {
    (topics.all()[topic].is_flaw() ? flaws : circumstances).push_back(topic);
  }
  Measured m;
  for (const Decision& d : player) {
    if (d.chances != study::no_chances && !has_any(d, flaws)) m.decisions.push_back(d);
  }
  std::ranges::sort(m.decisions, {}, &Decision::place);
  set_groups(m, circumstances);
  set_chances(m);
  return m;
}

struct Candidate {
  Tested tested{};
  GameSum sum{};  // for what is shrunk
};

Candidate candidate_of(TopicId id, const Topics& topics, const Sums& sums, double p,
                       std::uint64_t decisions, double scatter) {
  Candidate c{.sum = sums.all()};
  Tested& t = c.tested;
  t.topic = id;
  t.habit.words = words_of(topics, id);
  t.habit.is_flaw = topics.all()[id].is_flaw();
  t.habit.player = {static_cast<std::uint64_t>(c.sum.errors), decisions};
  t.habit.expected = c.sum.expected;
  t.multiple = c.sum.errors / c.sum.expected;
  if (const auto ratio = ratio_by_game(sums.by_game())) {
    t.habit.multiple = ratio->interval;
    t.holds_by_game = ratio->interval.low > 1 || ratio->interval.high < 1;
  }
  t.p = p_of_scattered(p, std::max(scatter, sums.scatter()));
  return c;
}

// One circumstance: the division of all errors between its decisions and the others.
Candidate circumstance(TopicId id, const Measured& m, const Topics& topics) {
  std::vector<Division> groups(m.group_count);
  std::uint64_t decisions = 0;
  Sums sums;
  for (std::size_t i = 0; i < m.decisions.size(); ++i) {
    const Decision& d = m.decisions[i];
    const double chance = m.chances[i];
    Division& group = groups[m.groups[i]];
    const bool among = has(d, id);
    (among ? group.chances : group.others).push_back(chance);
    (among ? group.errors : group.other_errors) += d.error ? 1 : 0;
    if (!among) continue;
    ++decisions;
    sums.add(d, chance, chance * (1 - chance), d.error);
  }
  return candidate_of(id, topics, sums, division_test(groups), decisions, m.scatter);
}

// One kind of error: its part of all errors among the decisions that could have brought it.
Candidate flaw(TopicId id, double part, const Measured& m, const Topics& topics) {
  const std::optional<TopicId> among = topics.all()[id].among;
  std::vector<double> errors;
  std::uint64_t decisions = 0;
  Sums sums;
  for (const Decision& d : m.decisions) {
    if (among && !has(d, *among)) continue;
    ++decisions;
    if (!d.error) continue;
    errors.push_back(part);
    sums.add(d, part, part * (1 - part), has(d, id));
  }
  const auto own = static_cast<std::uint64_t>(sums.all().errors);
  return candidate_of(id, topics, sums, sum_test(errors, own), decisions, m.scatter);
}

std::vector<Candidate> candidates(const Measured& m, const Topics& topics,
                                  const ExpectOptions& options) {
  const std::vector<Rate> rates = rates_of(m.decisions, topics, {});
  std::vector<Candidate> all;
  for (std::size_t i = 0; i < rates.size(); ++i) {
    const Topics::Topic& topic = topics.all()[i];
    if (rates[i].decisions < options.least_decisions) continue;
    const auto id = static_cast<TopicId>(i);
    if (topic.kind == TopicKind::circumstance && !is_of_the_clock(topic.words)) {
      all.push_back(circumstance(id, m, topics));
    } else if (const auto part = part_of_errors(topic.words); part && topic.is_flaw()) {
      all.push_back(flaw(id, *part, m, topics));
    }
  }
  std::erase_if(all, [&](const Candidate& c) { return c.sum.expected < options.least_expected; });
  return all;
}

std::vector<Tested> tested(const Measured& m, const Topics& topics, const ExpectOptions& options) {
  const std::vector<Candidate> all = candidates(m, topics, options);
  std::vector<GameSum> sums;
  for (const Candidate& c : all) sums.push_back(c.sum);
  const double strength = ratio_strength(sums);
  std::vector<Tested> list;
  for (const Candidate& c : all) {
    list.push_back(c.tested);
    list.back().habit.times = shrunk_ratio(c.sum, strength);
  }
  adjust(list);
  return list;
}

// Games that bring so many errors to be expected, of which `per_game` come in each.
double games_needed(double times, double part, double per_game, std::size_t tries, double scatter,
                    const ExpectOptions& options) {
  const double level = options.q / static_cast<double>(tries);
  return expected_to_tell(times, part, level, power) * scatter / per_game;
}

}  // namespace

FoundHabits find_by_expectation(Decisions player, const Topics& topics, std::uint64_t games,
                                const ExpectOptions& options) {
  FoundHabits found;
  Habits& h = found.habits;
  h.measure = Measure::expectation;
  h.games = games;
  h.player_rate = rate_of(player);
  const Measured m = measured(player, topics, {});
  Standard standard{.q = options.q, .most = options.most};
  standard.test = [&](const std::vector<TopicId>& named) {
    return tested(measured(player, topics, named), topics, options);
  };
  const std::vector<Tested> all = tested(m, topics, options);
  h.circumstances = all.size();
  if (all.empty() || games == 0) return found;
  const double played = static_cast<double>(games);
  const double errors = static_cast<double>(rate_of(m.decisions).errors);
  constexpr double one_in_ten = 0.1;
  h.games_for_double = rounded(static_cast<std::uint64_t>(
      games_needed(2, one_in_ten, one_in_ten * errors / played, all.size(), m.scatter, options)));
  standard.more_games = [&](const Tested& t, std::size_t tries) {
    const double expected = t.habit.expected;
    return games_beyond(games_needed(t.multiple, std::min(0.9, expected / errors),
                                     expected / played, tries, m.scatter, options),
                        games);
  };
  name_habits(found, all, standard, player, topics);
  return found;
}

}  // namespace kairos::habits
