// The statistics of errors where each decision has a chance of its own. The distribution of their
// number is made by adding one decision after the other; a division of errors between two groups
// weighs the distributions of both; moves of one game hang together, so whole games are what
// scatters and is left out in turn. Tests: tests/habits/unequal_chances_test.cpp, against sums over
// every outcome.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "kairos/habits/statistics.hpp"

#include "normal.hpp"

namespace kairos::habits {

namespace {

constexpr double negligible = 1e-30;
constexpr double most_times = 1e6;
constexpr double rounding = 1e-7;  // equal probabilities may differ by it

double sum_of(std::span<const double> values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

double variance_of(std::span<const double> chances) {
  return std::accumulate(chances.begin(), chances.end(), 0.0,
                         [](double sum, double c) { return sum + c * (1 - c); });
}

// The probability of sums no likelier than that one.
double two_sided(const SumDistribution& sum, std::uint64_t errors) {
  const double observed = sum.at(static_cast<std::int64_t>(errors)) * (1 + rounding);
  double tail = 0;
  for (const double p : sum.of) tail += p <= observed ? p : 0;
  return std::min(1.0, tail);
}

// How many errors these have, given how many there are.
SumDistribution divided(const Division& d) {
  const SumDistribution these = sum_distribution(d.chances), those = sum_distribution(d.others);
  const auto all = static_cast<std::int64_t>(d.errors + d.other_errors);
  SumDistribution sum{these.first, {}};
  for (std::size_t i = 0; i < these.of.size(); ++i) {
    sum.of.push_back(these.of[i] * those.at(all - static_cast<std::int64_t>(these.first + i)));
  }
  const double whole = sum_of(sum.of);
  for (double& p : sum.of) p = whole > 0 ? p / whole : 0;
  return sum;
}

SumDistribution together(const SumDistribution& one, const SumDistribution& other) {
  SumDistribution sum{one.first + other.first, {}};
  sum.of.resize(one.of.size() + other.of.size() - 1);
  for (std::size_t i = 0; i < one.of.size(); ++i) {
    if (one.of[i] < negligible) continue;
    for (std::size_t j = 0; j < other.of.size(); ++j) sum.of[i + j] += one.of[i] * other.of[j];
  }
  return sum;
}

double exact_division(std::span<const Division> groups) {
  SumDistribution all{0, {1.0}};
  std::uint64_t errors = 0;
  for (const Division& group : groups) {
    all = together(all, divided(group));
    errors += group.errors;
  }
  return two_sided(all, errors);
}

double normal_division(std::span<const Division> groups) {
  double off = 0, variance = 0;
  for (const Division& group : groups) {
    const double own = variance_of(group.chances), other = variance_of(group.others);
    if (own + other > 0) variance += own * other / (own + other);
    off += static_cast<double>(group.errors) - sum_of(group.chances);
  }
  const double beyond = std::abs(off) - 0.5;
  return beyond <= 0 ? 1 : std::min(1.0, 2 * normal_tail(beyond / std::sqrt(variance)));
}

// Student's t for 95 %, two-sided, by the expansion of M. Abramowitz and I. A. Stegun, Handbook of
// Mathematical Functions, 26.7.5 (from memory; the test compares with a table).
double student_point(double freedom) {
  constexpr double x = 1.959963985;
  const double x3 = x * x * x, x5 = x3 * x * x, x7 = x5 * x * x;
  return x + (x3 + x) / (4 * freedom) + (5 * x5 + 16 * x3 + 3 * x) / (96 * freedom * freedom) +
         (3 * x7 + 19 * x5 + 17 * x3 - 15 * x) / (384 * freedom * freedom * freedom);
}

}  // namespace

double SumDistribution::at(std::int64_t number) const {
  const std::int64_t index = number - static_cast<std::int64_t>(first);
  return index < 0 || index >= static_cast<std::int64_t>(of.size())
             ? 0
             : of[static_cast<std::size_t>(index)];
}

SumDistribution sum_distribution(std::span<const double> chances) {
  SumDistribution sum{0, {1.0}};
  std::size_t begin = 0;  // of what is not negligible in `sum.of`
  for (const double chance : chances) {
    sum.of.push_back(0);
    for (std::size_t i = sum.of.size() - 1; i > begin; --i) {
      sum.of[i] = sum.of[i] * (1 - chance) + sum.of[i - 1] * chance;
    }
    sum.of[begin] *= 1 - chance;
    while (begin + 1 < sum.of.size() && sum.of[begin] < negligible) ++begin;
    while (sum.of.size() > begin + 1 && sum.of.back() < negligible) sum.of.pop_back();
  }
  sum.of.erase(sum.of.begin(), sum.of.begin() + static_cast<std::ptrdiff_t>(begin));
  sum.first = begin;
  return sum;
}

double so_many_times(double chance, double times) {
  return std::min(chance * times, most_likely);
}

double times_to_expect(std::span<const double> chances, std::uint64_t errors) {
  const auto wanted = static_cast<double>(errors);
  double low = 0, high = 1;
  const auto expected = [&](double times) {
    double sum = 0;
    for (const double chance : chances) sum += so_many_times(chance, times);
    return sum;
  };
  if (wanted >= most_likely * static_cast<double>(chances.size())) return most_times;
  while (high < most_times && expected(high) < wanted) high *= 2;
  for (int i = 0; i < 50; ++i) {
    const double middle = (low + high) / 2;
    (expected(middle) < wanted ? low : high) = middle;
  }
  return high;
}

double sum_test(std::span<const double> chances, std::uint64_t errors) {
  return two_sided(sum_distribution(chances), errors);
}

double division_test(std::span<const Division> groups) {
  std::size_t decisions = 0;
  for (const Division& group : groups) decisions += group.chances.size() + group.others.size();
  return decisions <= most_exact ? exact_division(groups) : normal_division(groups);
}

double scatter_by_game(std::span<const GameSum> games) {
  double squares = 0, variance = 0;
  for (const GameSum& game : games) {
    squares += (game.errors - game.expected) * (game.errors - game.expected);
    variance += game.variance;
  }
  return variance > 0 ? std::max(1.0, squares / variance) : 1;
}

double p_of_scattered(double p, double scatter) {
  return p >= 1 ? 1 : std::min(1.0, 2 * normal_tail(normal_point(p / 2) / std::sqrt(scatter)));
}

std::optional<RatioByGame> ratio_by_game(std::span<const GameSum> games) {
  double expected = 0, errors = 0, count = 0;
  for (const GameSum& game : games) {
    expected += game.expected;
    errors += game.errors;
    count += game.expected > 0 ? 1 : 0;
  }
  if (count < static_cast<double>(least_games) || errors < least_errors) return std::nullopt;
  double sum = 0, squares = 0;
  for (const GameSum& game : games) {
    if (game.expected <= 0) continue;
    // Where one game has all errors, half of one is left.
    const double without =
        std::log(std::max(errors - game.errors, 0.5) / (expected - game.expected));
    sum += without;
    squares += without * without;
  }
  const double scatter = std::max(0.0, squares - sum * sum / count);
  const double margin = student_point(count - 1) * std::sqrt((count - 1) / count * scatter);
  const double ratio = errors / expected;
  return RatioByGame{ratio, {ratio * std::exp(-margin), ratio * std::exp(margin)}};
}

double ratio_strength(std::span<const GameSum> sums) {
  double scatter = 0, weight = 0;
  for (const GameSum& sum : sums) {
    const double off = sum.errors - sum.expected;
    scatter += off * off - sum.variance;
    weight += sum.expected * sum.expected;
  }
  return scatter <= 0 ? std::numeric_limits<double>::infinity() : weight / scatter;
}

double shrunk_ratio(const GameSum& sum, double strength) {
  if (std::isinf(strength)) return 1;
  return (sum.errors + strength) / (sum.expected + strength);
}

double expected_to_tell(double times, double part, double level, double power) {
  const double apart = normal_point(level / 2) + normal_point(1 - power) * std::sqrt(times);
  return apart * apart * (1 - part) / ((times - 1) * (times - 1));
}

}  // namespace kairos::habits
