#include "kairos/habits/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "normal.hpp"

namespace kairos::habits {

namespace {

double log_choose(std::uint64_t n, std::uint64_t k) {
  const auto log_factorial = [](std::uint64_t x) {
    return std::lgamma(static_cast<double>(x) + 1);
  };
  return log_factorial(n) - log_factorial(k) - log_factorial(n - k);
}

}  // namespace

double normal_tail(double point) {
  return std::erfc(point / std::sqrt(2.0)) / 2;
}

double normal_point(double tail) {
  double low = -40, high = 40;
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2;
    (normal_tail(middle) > tail ? low : high) = middle;
  }
  return low;
}

double exact_test(const Rate& one, const Rate& other) {
  const std::uint64_t errors = one.errors + other.errors;
  const std::uint64_t all = one.decisions + other.decisions;
  const std::uint64_t least = errors > other.decisions ? errors - other.decisions : 0;
  const std::uint64_t most = std::min(errors, one.decisions);
  const double whole = log_choose(all, errors);
  const auto log_probability = [&](std::uint64_t k) {
    return log_choose(one.decisions, k) + log_choose(other.decisions, errors - k) - whole;
  };
  // Equal probabilities may differ by rounding.
  const double observed = log_probability(one.errors) + 1e-7;
  double p = 0;
  for (std::uint64_t k = least; k <= most; ++k) {
    const double l = log_probability(k);
    if (l <= observed) p += std::exp(l);
  }
  return std::min(p, 1.0);
}

std::vector<double> adjusted_for_many(std::span<const double> p_values) {
  std::vector<std::size_t> order(p_values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return p_values[a] < p_values[b]; });
  std::vector<double> adjusted(p_values.size());
  double least = 1;
  for (std::size_t i = order.size(); i-- > 0;) {
    const double raised =
        p_values[order[i]] * static_cast<double>(order.size()) / static_cast<double>(i + 1);
    least = std::min(least, raised);
    adjusted[order[i]] = least;
  }
  return adjusted;
}

double prior_strength(std::span<const Rate> rates, std::span<const double> centres,
                      int lost_freedom) {
  double scatter = 0, weight = 0;  // scatter in units of what chance alone would bring
  for (std::size_t i = 0; i < rates.size(); ++i) {
    const auto n = static_cast<double>(rates[i].decisions);
    const double off = static_cast<double>(rates[i].errors) - n * centres[i];
    scatter += off * off / (n * centres[i] * (1 - centres[i]));
    weight += n - 1;
  }
  const auto count = static_cast<double>(rates.size());
  if (count > lost_freedom) scatter *= count / (count - lost_freedom);
  if (scatter <= count) return std::numeric_limits<double>::infinity();
  return std::max(0.0, weight / (scatter - count) - 1);
}

double shrunk(const Rate& rate, double centre, double strength) {
  if (std::isinf(strength)) return centre;
  return (static_cast<double>(rate.errors) + strength * centre) /
         (static_cast<double>(rate.decisions) + strength);
}

std::uint64_t decisions_to_tell(double rate, double other, double level, double power) {
  const double mean = (rate + other) / 2;
  const double apart = normal_point(level / 2) * std::sqrt(2 * mean * (1 - mean)) +
                       normal_point(1 - power) * std::sqrt(rate * (1 - rate) + other * (1 - other));
  return static_cast<std::uint64_t>(std::ceil(apart * apart / ((rate - other) * (rate - other))));
}

}  // namespace kairos::habits
