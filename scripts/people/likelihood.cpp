#include "likelihood.hpp"

#include <algorithm>
#include <cmath>
#include <iostream>

namespace kairos::people_tools {

namespace {

using people::term_count;
using people::terms;
using UsesTerm = std::function<bool(const people::Term&)>;
using Square = std::vector<double>;  // end_count times end_count numbers

std::array<double, term_count> weights_at(const Ends& ends, double place) {
  std::array<double, term_count> weights{};
  for (std::size_t i = 0; i < term_count; ++i) {
    weights[i] = ends[2 * i] + place * (ends[2 * i + 1] - ends[2 * i]);
  }
  return weights;
}

// The shares of a case's moves by one chooser.
std::vector<double> choices(const Cases& cases, const Case& c, const Ends& ends) {
  const auto weights = weights_at(ends, people::place_of(c.rating));
  std::vector<double> pulls(c.moves);
  for (std::size_t m = 0; m < c.moves; ++m) {
    const auto row = cases.row(c.first + m);
    for (std::size_t i = 0; i < term_count; ++i) pulls[m] += weights[i] * row[i];
  }
  return people::shares_of_pulls(pulls);
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
  // Of the terms, the first `used`.
  Adder(const Cases& cases, std::size_t used, Sum& sum) : cases_(cases), used_(used), sum_(sum) {}

  // `part`: of the case, 0 .. 1.
  void add(const Case& c, const Ends& ends, double part) {
    const std::vector<double> shares = choices(cases_, c, ends);
    sum_.value -= part * std::log(shares[c.played]);
    mean_.fill(0);
    for (std::size_t m = 0; m < c.moves; ++m) {
      const auto row = cases_.row(c.first + m);
      for (std::size_t i = 0; i < used_; ++i) mean_[i] += shares[m] * row[i];
    }
    const double place = people::place_of(c.rating);
    const auto played = cases_.row(c.first + c.played);
    for (std::size_t i = 0; i < used_; ++i) {
      sum_.slope[2 * i] += part * (1 - place) * (mean_[i] - played[i]);
      sum_.slope[2 * i + 1] += part * place * (mean_[i] - played[i]);
    }
    add_curvature(c, shares, place, part);
  }

 private:
  void add_curvature(const Case& c, const std::vector<double>& shares, double place, double part) {
    for (auto& line : covariance_) line.fill(0);
    std::array<double, term_count> off{};
    for (std::size_t m = 0; m < c.moves; ++m) {
      if (shares[m] < 1e-6) continue;
      const auto row = cases_.row(c.first + m);
      for (std::size_t i = 0; i < used_; ++i) off[i] = row[i] - mean_[i];
      for (std::size_t i = 0; i < used_; ++i) {
        const double weighed = part * shares[m] * off[i];
        for (std::size_t j = i; j < used_; ++j) covariance_[i][j] += weighed * off[j];
      }
    }
    const double low = 1 - place;
    for (std::size_t i = 0; i < used_; ++i) {
      double* const upper = &sum_.curvature[2 * i * end_count];
      double* const lower = upper + end_count;
      for (std::size_t j = 0; j < used_; ++j) {
        const double v = covariance_[std::min(i, j)][std::max(i, j)];
        upper[2 * j] += low * low * v;
        upper[2 * j + 1] += low * place * v;
        lower[2 * j] += low * place * v;
        lower[2 * j + 1] += place * place * v;
      }
    }
  }

  const Cases& cases_;
  std::size_t used_;
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
  }
  return value;
}

// Ends that may move: of a term in use, and not held at zero by their sign.
std::vector<std::size_t> free_ends(const Ends& ends, const Ends& slope, const UsesTerm& uses) {
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

// A chooser's part of each case used.
struct Part {
  const Case* of = nullptr;
  double part = 1;
};

double value_at(const Cases& cases, const std::vector<Part>& parts, const Ends& ends) {
  double value = penalty(ends);
  for (const Part& p : parts) {
    if (p.part > 0) value -= p.part * std::log(choices(cases, *p.of, ends)[p.of->played]);
  }
  return value;
}

// One step of Newton's method, shortened until it gains; returns what it gained.
double improve(const Cases& cases, const std::vector<Part>& parts, const UsesTerm& uses,
               Ends& ends) {
  Sum sum;
  std::size_t used = term_count;
  while (used > 0 && !uses(terms[used - 1])) --used;
  Adder adder(cases, used, sum);
  for (const Part& p : parts) adder.add(*p.of, ends, p.part);
  add_penalty(ends, sum);
  const Ends way = newton_step(sum, free_ends(ends, sum.slope, uses));
  for (double length = 1; length > 1e-3; length /= 2) {
    Ends next = ends;
    for (std::size_t i = 0; i < end_count; ++i) next[i] = clipped(i, ends[i] + length * way[i]);
    const double value = value_at(cases, parts, next);
    if (value > sum.value) continue;
    ends = next;
    return sum.value - value;
  }
  return 0;
}

// Each chooser's part of each case.
using Division = std::array<std::vector<Part>, people::chooser_count>;

// Divides each case between the choosers, and the parts of the choosers among the ratings that they
// are given at; sets the model's parts to what comes of it. Returns minus the log likelihood.
double divide(const Cases& cases, Division& division, Model& model) {
  people::Parts sums{};
  double value = 0;
  for (std::size_t i = 0; i < division[0].size(); ++i) {
    const Case& c = *division[0][i].of;
    const auto part = people::parts_at(model.parts, c.rating);
    const people::Nearness nearness = people::nearness_of(c.rating);
    std::array<double, people::chooser_count> share{};
    double whole = 0;
    for (std::size_t k = 0; k < share.size(); ++k) {
      share[k] = choices(cases, c, model.choosers[k])[c.played];
      whole += part[k] * share[k];
    }
    value -= std::log(whole);
    for (std::size_t k = 0; k < share.size(); ++k) {
      division[k][i].part = part[k] * share[k] / whole;
      for (std::size_t r = 0; r < nearness.size(); ++r) {
        sums[k][r] += nearness[r] * model.parts[k][r] * share[k] / whole;
      }
    }
  }
  for (std::size_t r = 0; r < people::part_ratings.size(); ++r) {
    double all = 0;
    for (const auto& of_chooser : sums) all += of_chooser[r];
    for (std::size_t k = 0; k < sums.size(); ++k) model.parts[k][r] = sums[k][r] / all;
  }
  return value;
}

// Those of the three choosers together, as they are before they are sharpened.
std::vector<double> mixture(const Cases& cases, const Case& c, const Model& model) {
  std::vector<double> shares(c.moves);
  const auto part = people::parts_at(model.parts, c.rating);
  for (std::size_t k = 0; k < part.size(); ++k) {
    const std::vector<double> chosen = choices(cases, c, model.choosers[k]);
    for (std::size_t m = 0; m < c.moves; ++m) shares[m] += part[k] * chosen[m];
  }
  return shares;
}

people::Sharpness fit_sharpness(const Cases& cases, const std::vector<Part>& used,
                                const Model& model) {
  constexpr double first_step = 0.1, last_step = 0.001;
  std::vector<std::vector<double>> mixtures;
  for (const Part& p : used) mixtures.push_back(mixture(cases, *p.of, model));
  const auto value = [&](const people::Sharpness& sharpness) {
    double sum = 0;
    for (std::size_t i = 0; i < used.size(); ++i) {
      sum -= std::log(people::sharpened(mixtures[i], sharpness)[used[i].of->played]);
    }
    return sum;
  };
  people::Sharpness best;
  double least = value(best);
  const auto try_step = [&](double at_nothing, double with_greatest) {
    const people::Sharpness next{best.at_nothing + at_nothing, best.with_greatest + with_greatest};
    const double found = value(next);
    if (found >= least) return false;
    best = next;
    least = found;
    return true;
  };
  // Both at once in opposite ways too: that is how the valley runs.
  for (double step = first_step; step > last_step;) {
    const bool gained = try_step(step, 0) || try_step(-step, 0) || try_step(0, step) ||
                        try_step(0, -step) || try_step(step, -step) || try_step(-step, step);
    if (!gained) step /= 2;
  }
  std::cerr << model.name << ", sharpened: " << least << '\n';
  return best;
}

}  // namespace

std::vector<double> shares_of(const Cases& cases, const Case& c, const Model& model) {
  return people::sharpened(mixture(cases, c, model), model.sharpness);
}

Model fit(std::string name, const Cases& cases, const std::function<bool(const Case&)>& is_used,
          const Uses& uses) {
  constexpr int first_steps = 4, rounds = 100;
  constexpr double small_gain = 0.5;  // of the log likelihood of all cases, in a round
  constexpr std::array first_size = {1.0, 1.0, 0.5};  // so that no two begin as the same
  Division division;
  for (const Case& c : cases.list) {
    if (!is_used(c)) continue;
    for (auto& of_chooser : division) of_chooser.push_back({&c});
  }
  Model model{.name = std::move(name), .choosers = {}, .parts = {}, .sharpness = {}};
  const auto improve_all = [&] {
    for (std::size_t k = 0; k < people::chooser_count; ++k) {
      improve(
          cases, division[k], [&](const people::Term& term) { return uses(k, term); },
          model.choosers[k]);
    }
  };
  for (int step = 0; step < first_steps; ++step) improve_all();
  for (std::size_t k = 0; k < people::chooser_count; ++k) {
    for (double& end : model.choosers[k]) end *= first_size[k];
    model.parts[k].fill(1.0 / people::chooser_count);
  }
  double before = divide(cases, division, model);
  for (int round = 0; round < rounds; ++round) {
    improve_all();
    const double after = divide(cases, division, model);
    std::cerr << model.name << ", round " << round << ": " << after << '\n';
    if (before - after < small_gain) break;
    before = after;
  }
  model.sharpness = fit_sharpness(cases, division.front(), model);
  return model;
}

}  // namespace kairos::people_tools
