// The statistics behind habits: what small counts can tell, and what they cannot. Pure functions.
//
// A share is `errors` of `decisions`. Decisions of one game are not quite independent of each
// other, so the figures are somewhat too sure; kairos asks for many games before it names anything.
#pragma once

#include <cstdint>
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

}  // namespace kairos::habits
