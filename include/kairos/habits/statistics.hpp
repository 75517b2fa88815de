// The statistics behind habits: what small counts can tell, and what they cannot. Pure functions.
//
// Chances are 0 .. 1. A share is `errors` of `decisions`. Decisions of one game are not quite
// independent of each other, so the figures are somewhat too sure; kairos asks for many games
// before it names anything.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "kairos/habits/habit.hpp"

namespace kairos::habits {

// Fisher's exact test, two-sided (R. A. Fisher, The Design of Experiments, 1935, chapter 2): the
// probability, were both rates the same, of tables no likelier than this one.
double exact_test(const Rate& one, const Rate& other);

// Benjamini and Hochberg, JRSS B 57 (1995) 289-300: p-values so raised that those at most q hold
// a share of at most q of false alarms. In the order given.
std::vector<double> adjusted_for_many(std::span<const double> p_values);

// Empirical Bayes, beta-binomial: rates scatter around their centres as if each came from a Beta
// distribution of strength s (its a + b); an estimate is (errors + s centre) / (decisions + s).
// The strength comes from the scatter by moments, each rate weighing alike; infinite when there is
// none beyond chance. Rates need decisions, centres must lie between 0 and 1.
// `lost_freedom`: 1 where the centres are the mean of the very shares given, else 0.
double prior_strength(std::span<const Rate> rates, std::span<const double> centres,
                      int lost_freedom = 0);
double shrunk(const Rate& rate, double centre, double strength);

// Decisions needed on each side to tell a rate from another with the chance `power`, in a two-sided
// test at `level` (J. L. Fleiss, Statistical Methods for Rates and Proportions, chapter 3, without
// the continuity correction; formula from memory). Rates must differ.
std::uint64_t decisions_to_tell(double rate, double other, double level, double power);

// Errors where each decision has a chance of its own. The number of errors is then a sum of
// independent events of unequal chances (Poisson binomial).

// The probability of each number of them, from 0 on: exact, by adding one after the other. What is
// rarer than 1e-30 at either end is left out, in front as well: `first` is the number that
// `of.front()` speaks of.
struct SumDistribution {
  std::size_t first = 0;
  std::vector<double> of;

  [[nodiscard]] double at(std::int64_t number) const;
};

SumDistribution sum_distribution(std::span<const double> chances);

// The probability, two-sided, of sums no likelier than this one.
double sum_test(std::span<const double> chances, std::uint64_t errors);

// A chance so many times as great, but no greater than `most_likely`.
inline constexpr double most_likely = 0.95;
double so_many_times(double chance, double times);
// How many times as great all must be that `errors` are to be expected, as far as they can be.
double times_to_expect(std::span<const double> chances, std::uint64_t errors);

// How the errors among some decisions fall on these and on the others.
struct Division {
  std::vector<double> chances, others;
  std::uint64_t errors = 0, other_errors = 0;
};
// Whether these have as many errors as the chances have it, given how many there are in all: the
// probability, two-sided, of divisions no likelier than this one. With equal chances it is Fisher's
// exact test. Of several groups of decisions the errors of all `chances` together are tested, given
// how many each group has. As many errors should be expected of each group as there were
// (times_to_expect), so that a player is measured by himself. Beyond `most_exact` decisions it goes
// by the normal curve with the same mean and variance, cut at halves: down to p of 0.001 it is then
// off by half at most (tests/habits/unequal_chances_test.cpp).
inline constexpr std::size_t most_exact = 20'000;
double division_test(std::span<const Division> groups);

// What was to be expected of the decisions of one game, and what there was.
struct GameSum {
  double expected = 0, errors = 0;
  double variance = 0;  // of the errors, were decisions independent
};
// Moves of one game hang together: how many times as much the games scatter as independent
// decisions would, at least 1.
double scatter_by_game(std::span<const GameSum> games);
// A p-value for errors that scatter so many times as much.
double p_of_scattered(double p, double scatter);

// Errors for each that was to be expected, with what resampling by game says of it: 95 %, by
// leaving each game out in turn (jackknife) on the scale of logarithms, with Student's t. At least
// `least_games` games with expectations and `least_errors` errors; else nothing is told.
inline constexpr std::size_t least_games = 5;
inline constexpr double least_errors = 5;
struct RatioByGame {
  double ratio = 1;
  base::Interval interval;
};
std::optional<RatioByGame> ratio_by_game(std::span<const GameSum> games);

// Empirical Bayes for such ratios, gamma-Poisson: they scatter around 1 as if each came from a
// Gamma distribution of mean 1 and strength s; an estimate is (errors + s) / (expected + s). The
// strength comes from the scatter by moments; infinite when there is none beyond chance.
double ratio_strength(std::span<const GameSum> sums);
double shrunk_ratio(const GameSum& sum, double strength);

// Errors that must be expected to tell a ratio of `times` from 1 with the chance `power`, in a
// two-sided test at `level`, where `part` of all errors fall among them. By the normal curve.
double expected_to_tell(double times, double part, double level, double power);

}  // namespace kairos::habits
