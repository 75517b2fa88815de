#include <algorithm>
#include <atomic>
#include <cmath>
#include <iostream>
#include <string>
#include <thread>

#include "endings.hpp"
#include "linear.hpp"

// Least squares of a logistic curve: the weights are moved so that 1 / (1 + exp(-k * evaluation))
// comes as near as possible to what became of the positions. The evaluation is nearly linear in its
// weights, so it is linearised around the present ones by finite differences (that also covers the
// squared danger and the endgame factors without any special code), the linear model is descended
// by gradient with momentum and a pull toward the starting values, the result is rounded, and the
// whole is repeated a few times. Every tenth game is held out and only used to report the error.

namespace kairos::fit {

namespace {

using search::Parameters;
using search::Taper;
using search::Weights;

constexpr int rounds = 3;
constexpr int descent_steps = 400;
constexpr double pull = 1e-8;  // per squared centipawn; holds what few positions speak of

double logistic(double k, double evaluation) {
  return 1.0 / (1.0 + std::exp(-k * evaluation));
}

// Mean squared difference between the curve at the evaluations and the targets.
double error_of(const std::vector<double>& evaluations, const std::vector<double>& targets,
                double k) {
  double sum = 0;
  for (std::size_t i = 0; i < evaluations.size(); ++i) {
    const double d = logistic(k, evaluations[i]) - targets[i];
    sum += d * d;
  }
  return sum / static_cast<double>(evaluations.size());
}

double best_k(const std::vector<double>& evaluations, const std::vector<double>& targets) {
  double low = 0.0005, high = 0.02;
  for (int i = 0; i < 60; ++i) {
    const double a = low + (high - low) / 3, b = high - (high - low) / 3;
    (error_of(evaluations, targets, a) < error_of(evaluations, targets, b) ? high : low) =
        error_of(evaluations, targets, a) < error_of(evaluations, targets, b) ? b : a;
  }
  return (low + high) / 2;
}

using Vector = std::vector<double>;

// The gradient over some of the points, added to `gradient`.
void add_gradient(const Problem& problem, std::size_t begin, std::size_t end, double k,
                  const Vector& delta, Vector& gradient) {
  for (std::size_t i = begin; i < end; ++i) {
    const Point& p = problem.points[i];
    double e = p.evaluation;
    for (std::uint32_t s = p.first; s < p.last; ++s) {
      e += static_cast<double>(problem.slopes[s].slope) * delta[problem.slopes[s].knob];
    }
    const double q = logistic(k, e);
    const double pull_here = 2 * (q - static_cast<double>(p.target)) * q * (1 - q) * k;
    for (std::uint32_t s = p.first; s < p.last; ++s) {
      gradient[problem.slopes[s].knob] += pull_here * static_cast<double>(problem.slopes[s].slope);
    }
  }
}

// In a fixed number of parts, so that the sum does not hang on the number of processors.
Vector gradient_of(const Problem& problem, double k, const Vector& delta) {
  constexpr std::size_t parts = 32;
  std::vector<Vector> sums(parts, Vector(delta.size()));
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < parts; i = next++) {
      const std::size_t n = problem.points.size();
      add_gradient(problem, n * i / parts, n * (i + 1) / parts, k, delta, sums[i]);
    }
  };
  std::vector<std::thread> threads;
  for (unsigned i = 0; i < std::max(1U, std::thread::hardware_concurrency()); ++i) {
    threads.emplace_back(work);
  }
  for (auto& t : threads) t.join();
  for (std::size_t i = 1; i < parts; ++i) {
    for (std::size_t j = 0; j < delta.size(); ++j) sums[0][j] += sums[i][j];
  }
  for (double& g : sums[0]) g /= static_cast<double>(problem.points.size());
  return sums[0];
}

// Moves `delta` (one entry a knob) downhill on the linearised problem.
void descend(const Problem& problem, double k, const Vector& offset, Vector& delta) {
  const std::size_t n = delta.size();
  Vector first(n), second(n);
  constexpr double rate = 0.5, keep_first = 0.9, keep_second = 0.99;
  for (int step = 1; step <= descent_steps; ++step) {
    const Vector gradient = gradient_of(problem, k, delta);
    const double decay = step < descent_steps * 3 / 4 ? 1.0 : 0.2;
    for (std::size_t i = 0; i < n; ++i) {
      const double g = gradient[i] + 2 * pull * (offset[i] + delta[i]);
      first[i] = keep_first * first[i] + (1 - keep_first) * g;
      second[i] = keep_second * second[i] + (1 - keep_second) * g * g;
      const double f = first[i] / (1 - std::pow(keep_first, step));
      const double s = second[i] / (1 - std::pow(keep_second, step));
      delta[i] -= decay * rate * f / (std::sqrt(s) + 1e-12);
    }
  }
}

void print_weights(Weights& w) {
  search::visit_weights(w, [](const char* name, auto& array) {
    std::cout << name << " {{";
    bool later = false;
    for (const auto& value : array) {
      if (later) std::cout << ", ";
      later = true;
      if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Taper>) {
        std::cout << '{' << value.middlegame() << ", " << value.endgame() << '}';
      } else {
        std::cout << value;
      }
    }
    std::cout << "}}\n";
  });
}

struct Split {
  std::vector<Sample> train, held_out;
};

struct Errors {
  double results, searches;
};

Errors errors_of(const std::vector<Sample>& samples, const Weights& w, double k_results,
                 double k_searches) {
  const Parameters parameters = search::make_parameters(w);
  std::vector<double> evaluations, results, searches;
  for (const Sample& s : samples) {
    evaluations.push_back(white_evaluation(s.position, parameters));
    results.push_back(s.half_points / 2.0);
    searches.push_back(logistic(k_searches, s.score));
  }
  return {error_of(evaluations, results, k_results), error_of(evaluations, searches, k_searches)};
}

void report(const char* when, const Split& split, const Weights& w, double k) {
  const Errors train = errors_of(split.train, w, k, k);
  const Errors held = errors_of(split.held_out, w, k, k);
  std::cerr << when << ": error against results, fitted " << train.results << ", held out "
            << held.results << "; against searches, fitted " << train.searches << ", held out "
            << held.searches << '\n';
}

}  // namespace

int fit(const std::vector<std::string>& files, int share) {
  Split split;
  for (const std::string& file : files) {
    for (Sample& s : read_samples(file)) {
      if (search::known_ending(s.position)) continue;
      (s.game % 10 == 0 ? split.held_out : split.train).push_back(s);
    }
  }
  std::cerr << split.train.size() << " positions to fit, " << split.held_out.size()
            << " held out\n";
  const Weights start;
  Weights w = start;
  std::vector<double> evaluations, results;
  const Parameters parameters = search::make_parameters(w);
  for (const Sample& s : split.train) {
    evaluations.push_back(white_evaluation(s.position, parameters));
    results.push_back(s.half_points / 2.0);
  }
  // The scale is fixed by the scores of the searches, so that a pawn stays about a pawn.
  std::vector<double> scores;
  for (const Sample& s : split.train) scores.push_back(s.score);
  const double k = best_k(scores, results);
  std::cerr << "k " << k << " (of the evaluation alone " << best_k(evaluations, results) << ")\n";
  report("before", split, w, k);
  const std::vector<Knob> knobs = list_knobs();
  std::vector<double> total(knobs.size());
  for (int round = 1; round <= rounds; ++round) {
    Problem problem = linearise(split.train, w, knobs);
    for (std::size_t i = 0; i < problem.points.size(); ++i) {
      const Sample& s = split.train[i];
      problem.points[i].target = static_cast<float>(
          (share * s.half_points / 2.0 + (100 - share) * logistic(k, s.score)) / 100.0);
    }
    std::vector<double> delta(knobs.size());
    descend(problem, k, total, delta);
    for (std::size_t i = 0; i < knobs.size(); ++i) {
      const int before = knobs[i].get(at(w, knobs[i]));
      const int after = before + static_cast<int>(std::lround(delta[i]));
      knobs[i].set(at(w, knobs[i]), after);
      total[i] += after - before;
    }
    report(("round " + std::to_string(round)).c_str(), split, w, k);
  }
  print_weights(w);
  return 0;
}

}  // namespace kairos::fit
