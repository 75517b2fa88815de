#include "likelihood.hpp"

#include <algorithm>
#include <cmath>
#include <iostream>

namespace kairos::people_tools {

namespace {

using people::term_count;
using people::terms;
using Square = std::vector<double>;  // end_count times end_count numbers

std::array<double, term_count> weights_at(const Ends& ends, double place) {
  std::array<double, term_count> weights{};
  for (std::size_t i = 0; i < term_count; ++i) {
    weights[i] = ends[2 * i] + place * (ends[2 * i + 1] - ends[2 * i]);
  }
  return weights;
}

// The sum that is made small, its slope and its curvature.
struct Sum {
  double value = 0;
  Ends slope{};
  Square curvature = Square(end_count * end_count);
};

// One case: the slope in a term is what the model expects of it minus what was played, the
// curvature the covariance of two terms among the moves.
class Adder {
 public:
  Adder(const Cases& cases, Sum& sum) : cases_(cases), sum_(sum) {}

  void add(const Case& c, const Ends& ends) {
    const std::vector<double> shares = shares_of(cases_, c, ends);
    sum_.value -= std::log(shares[c.played]);
    mean_.fill(0);
    for (std::size_t m = 0; m < c.moves; ++m) {
      const auto row = cases_.row(c.first + m);
      for (std::size_t i = 0; i < term_count; ++i) mean_[i] += shares[m] * row[i];
    }
    const double place = people::place_of(c.rating);
    const auto played = cases_.row(c.first + c.played);
    for (std::size_t i = 0; i < term_count; ++i) {
      sum_.slope[2 * i] += (1 - place) * (mean_[i] - played[i]);
      sum_.slope[2 * i + 1] += place * (mean_[i] - played[i]);
    }
    add_curvature(c, shares, place);
  }

 private:
  void add_curvature(const Case& c, const std::vector<double>& shares, double place) {
    for (auto& line : covariance_) line.fill(0);
    std::array<double, term_count> off{};
    for (std::size_t m = 0; m < c.moves; ++m) {
      if (shares[m] < 1e-6) continue;
      const auto row = cases_.row(c.first + m);
      for (std::size_t i = 0; i < term_count; ++i) off[i] = row[i] - mean_[i];
      for (std::size_t i = 0; i < term_count; ++i) {
        const double weighed = shares[m] * off[i];
        for (std::size_t j = 0; j < term_count; ++j) covariance_[i][j] += weighed * off[j];
      }
    }
    const double low = 1 - place;
    for (std::size_t i = 0; i < term_count; ++i) {
      double* const upper = &sum_.curvature[2 * i * end_count];
      double* const lower = upper + end_count;
      for (std::size_t j = 0; j < term_count; ++j) {
        const double v = covariance_[i][j];
        upper[2 * j] += low * low * v;
        upper[2 * j + 1] += low * place * v;
        lower[2 * j] += low * place * v;
        lower[2 * j + 1] += place * place * v;
      }
    }
  }

  const Cases& cases_;
  Sum& sum_;
  std::array<double, term_count> mean_{};
  std::array<std::array<double, term_count>, term_count> covariance_{};
};

double penalty(const Ends& ends) {
  double sum = 0;
  for (std::size_t i = 0; i < end_count; i += 2) {
    const double slope = ends[i + 1] - ends[i];
    sum += size_penalty * (ends[i] * ends[i] + ends[i + 1] * ends[i + 1]);
    sum += slope_penalty * slope * slope;
  }
  return sum / 2;
}

void add_penalty(const Ends& ends, Sum& sum) {
  sum.value += penalty(ends);
  for (std::size_t i = 0; i < end_count; i += 2) {
    const double slope = slope_penalty * (ends[i + 1] - ends[i]);
    sum.slope[i] += size_penalty * ends[i] - slope;
    sum.slope[i + 1] += size_penalty * ends[i + 1] + slope;
    for (const std::size_t at : {i, i + 1}) {
      sum.curvature[at * end_count + at] += size_penalty + slope_penalty;
    }
    sum.curvature[i * end_count + i + 1] -= slope_penalty;
    sum.curvature[(i + 1) * end_count + i] -= slope_penalty;
  }
}

double clipped(std::size_t at, double value) {
  switch (terms[at / 2].sign) {
    case people::Sign::any:
      return value;
    case people::Sign::cost:
      return std::min(value, 0.0);
    case people::Sign::gain:
      return std::max(value, 0.0);
  }
  return value;
}

// Ends that may move: of a term in use, and not held at zero by their sign.
std::vector<std::size_t> free_ends(const Ends& ends, const Ends& slope,
                                   const std::function<bool(const people::Term&)>& uses) {
  std::vector<std::size_t> free;
  for (std::size_t i = 0; i < end_count; ++i) {
    if (!uses(terms[i / 2])) continue;
    const bool held = ends[i] == 0 && clipped(i, -slope[i]) == 0 && slope[i] != 0;
    if (!held) free.push_back(i);
  }
  return free;
}

// The Newton step of the free ends: Cholesky's method.
Ends newton_step(const Sum& sum, const std::vector<std::size_t>& free) {
  const std::size_t n = free.size();
  std::vector<double> l(n * n), y(n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double v = sum.curvature[free[i] * end_count + free[j]];
      for (std::size_t k = 0; k < j; ++k) v -= l[i * n + k] * l[j * n + k];
      l[i * n + j] = i == j ? std::sqrt(v) : v / l[j * n + j];
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    y[i] = -sum.slope[free[i]];
    for (std::size_t k = 0; k < i; ++k) y[i] -= l[i * n + k] * y[k];
    y[i] /= l[i * n + i];
  }
  Ends step{};
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) y[i] -= l[k * n + i] * y[k];
    y[i] /= l[i * n + i];
    step[free[i]] = y[i];
  }
  return step;
}

double value_at(const Cases& cases, const std::function<bool(const Case&)>& is_used,
                const Ends& ends) {
  double value = penalty(ends);
  for (const Case& c : cases.list) {
    if (is_used(c)) value -= std::log(shares_of(cases, c, ends)[c.played]);
  }
  return value;
}

}  // namespace

std::vector<double> shares_of(const Cases& cases, const Case& c, const Ends& ends) {
  const auto weights = weights_at(ends, people::place_of(c.rating));
  std::vector<double> pulls(c.moves);
  for (std::size_t m = 0; m < c.moves; ++m) {
    const auto row = cases.row(c.first + m);
    for (std::size_t i = 0; i < term_count; ++i) pulls[m] += weights[i] * row[i];
  }
  return people::shares_of_pulls(pulls);
}

Ends fit(const Cases& cases, const std::function<bool(const Case&)>& is_used,
         const std::function<bool(const people::Term&)>& uses) {
  constexpr int most_steps = 40;
  constexpr double small_gain = 0.01;  // of the sum over all cases
  Ends ends{};
  for (int step = 0; step < most_steps; ++step) {
    Sum sum;
    Adder adder(cases, sum);
    for (const Case& c : cases.list) {
      if (is_used(c)) adder.add(c, ends);
    }
    add_penalty(ends, sum);
    const Ends way = newton_step(sum, free_ends(ends, sum.slope, uses));
    double length = 1, value = 0;
    Ends next = ends;
    do {
      for (std::size_t i = 0; i < end_count; ++i) next[i] = clipped(i, ends[i] + length * way[i]);
      value = value_at(cases, is_used, next);
      length /= 2;
    } while (value > sum.value && length > 1e-4);
    std::cerr << "step " << step << ": " << sum.value << " -> " << value << '\n';
    if (value >= sum.value) break;
    ends = next;
    if (sum.value - value < small_gain) break;
  }
  return ends;
}

}  // namespace kairos::people_tools
