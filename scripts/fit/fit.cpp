#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <iostream>
#include <string>
#include <thread>

#include "endings.hpp"
#include "evaluation.hpp"
#include "samples.hpp"

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

// One number to fit: a plain int, or one half of a Taper.
struct Knob {
  std::string name;
  int step;  // of the finite difference
  int (*get)(const void*);
  void (*set)(void*, int);
  std::size_t offset;  // of the Taper or int in Weights
  bool endgame = false;
};

int middlegame_of(const void* p) {
  return static_cast<const Taper*>(p)->middlegame();
}
int endgame_of(const void* p) {
  return static_cast<const Taper*>(p)->endgame();
}
int plain_of(const void* p) {
  return *static_cast<const int*>(p);
}
void set_middlegame(void* p, int v) {
  *static_cast<Taper*>(p) = Taper(v, endgame_of(p));
}
void set_endgame(void* p, int v) {
  *static_cast<Taper*>(p) = Taper(middlegame_of(p), v);
}
void set_plain(void* p, int v) {
  *static_cast<int*>(p) = v;
}

std::vector<Knob> list_knobs() {
  std::vector<Knob> knobs;
  static Weights w;
  const auto* base = reinterpret_cast<const char*>(&w);
  search::visit_weights(w, [&](const char* name, auto& array) {
    for (auto& value : array) {
      const auto offset = static_cast<std::size_t>(reinterpret_cast<const char*>(&value) - base);
      if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Taper>) {
        knobs.push_back({name, 8, middlegame_of, set_middlegame, offset});
        knobs.push_back({name, 8, endgame_of, set_endgame, offset, true});
      } else {
        knobs.push_back({name, 3, plain_of, set_plain, offset});
      }
    }
  });
  return knobs;
}

void* at(Weights& w, const Knob& k) {
  return reinterpret_cast<char*>(&w) + k.offset;
}

struct Slope {
  std::uint16_t knob;
  float slope;  // centipawns (White's) per unit of the knob
};

struct Point {
  double evaluation;  // White's, centipawns, at the point of linearisation
  float target;
  std::uint32_t first, last;  // its slopes
};

struct Problem {
  std::vector<Point> points;
  std::vector<Slope> slopes;
};

double white_evaluation(const rules::Position& p, const Parameters& parameters) {
  const double fine = search::evaluate_fine(p, parameters) / 256.0;
  return p.side_to_move() == rules::white ? fine : -fine;
}

// The two sides of a difference for one knob, built once and shared by all positions.
struct Bump {
  Parameters up, down;
};

// The knobs of one square table: the entry of square s has its halves at first and first + 1 plus
// twice s. What a place is worth enters the evaluation like the tempo, which is always there, so
// its slope is that of the tempo times the men on it, without a difference of its own.
struct PlaceTable {
  rules::PieceType type;
  bool enemy;         // mirrored by the enemy's king instead of its own
  std::size_t first;  // knob
};

std::vector<PlaceTable> list_places(const std::vector<Knob>& knobs) {
  constexpr std::array<const char*, 6> kinds = {"pawn", "knight", "bishop",
                                                "rook", "queen",  "king"};
  std::vector<PlaceTable> places;
  for (std::size_t type = 0; type < kinds.size(); ++type) {
    for (const bool enemy : {false, true}) {
      const std::string name = std::string(kinds[type]) + (enemy ? "_enemy_wing" : "_own_wing");
      const auto it =
          std::find_if(knobs.begin(), knobs.end(), [&](const Knob& k) { return k.name == name; });
      places.push_back({static_cast<rules::PieceType>(type), enemy,
                        static_cast<std::size_t>(it - knobs.begin())});
    }
  }
  return places;
}

bool is_place(const Knob& k) {
  return k.name.ends_with("_wing");
}

// Men of the kind on each place, ours minus theirs.
std::array<int, 64> men_on_places(const rules::Position& p, const PlaceTable& table) {
  std::array<int, 64> men{};
  for (const rules::Color us : {rules::white, rules::black}) {
    const int wings = search::wings_of(p, us);
    const std::size_t flip = (wings & (table.enemy ? 2 : 1)) != 0 ? 7 : 0;
    for (rules::Bitboard rest = p.pieces(us, table.type); rest != 0;) {
      const auto s = static_cast<std::size_t>(search::relative(us, rules::take_first(rest)));
      men[s ^ flip] += us == rules::white ? 1 : -1;
    }
  }
  return men;
}

struct Model {
  Parameters centre;
  std::vector<Bump> bumps;  // one a knob; empty for places
  std::vector<PlaceTable> places;
  std::size_t tempo = 0;  // knob
};

void add_place_slopes(const rules::Position& p, const Model& model,
                      const std::array<double, 2>& unit, Problem& out) {
  for (const PlaceTable& table : model.places) {
    const std::array<int, 64> men = men_on_places(p, table);
    for (std::size_t s = 0; s < men.size(); ++s) {
      if (men[s] == 0) continue;
      for (std::size_t half = 0; half < 2; ++half) {
        out.slopes.push_back({static_cast<std::uint16_t>(table.first + 2 * s + half),
                              static_cast<float>(unit[half] * men[s])});
      }
    }
  }
}

void linearise_range(const std::vector<Sample>& samples, std::size_t begin, std::size_t end,
                     const std::vector<Knob>& knobs, const Model& model, Problem& out) {
  for (std::size_t i = begin; i < end; ++i) {
    const rules::Position& p = samples[i].position;
    Point point{white_evaluation(p, model.centre), 0, static_cast<std::uint32_t>(out.slopes.size()),
                0};
    const double view = p.side_to_move() == rules::white ? 1 : -1;
    std::array<double, 2> unit{};
    for (std::size_t k = 0; k < knobs.size(); ++k) {
      if (is_place(knobs[k])) continue;
      const double up = white_evaluation(p, model.bumps[k].up);
      const double down = white_evaluation(p, model.bumps[k].down);
      if (up == down) continue;
      const double slope = (up - down) / (2.0 * knobs[k].step);
      if (k == model.tempo || k == model.tempo + 1) unit[k - model.tempo] = view * slope;
      out.slopes.push_back({static_cast<std::uint16_t>(k), static_cast<float>(slope)});
    }
    add_place_slopes(p, model, unit, out);
    point.last = static_cast<std::uint32_t>(out.slopes.size());
    out.points.push_back(point);
  }
}

Problem linearise(const std::vector<Sample>& samples, const Weights& w,
                  const std::vector<Knob>& knobs) {
  Model model{search::make_parameters(w), {}, list_places(knobs), 0};
  for (const Knob& k : knobs) {
    if (k.name == "tempo" && !k.endgame) {
      model.tempo = static_cast<std::size_t>(&k - knobs.data());
    }
    Weights up = w, down = w;
    const int value = k.get(at(up, k));
    k.set(at(up, k), value + k.step);
    k.set(at(down, k), value - k.step);
    model.bumps.push_back(
        is_place(k) ? Bump{} : Bump{search::make_parameters(up), search::make_parameters(down)});
  }
  const std::size_t parts = std::max(1U, std::thread::hardware_concurrency());
  std::vector<Problem> problems(parts);
  std::vector<std::thread> threads;
  for (std::size_t t = 0; t < parts; ++t) {
    threads.emplace_back([&, t] {
      linearise_range(samples, samples.size() * t / parts, samples.size() * (t + 1) / parts, knobs,
                      model, problems[t]);
    });
  }
  for (auto& t : threads) t.join();
  Problem whole;
  for (Problem& part : problems) {
    const auto shift = static_cast<std::uint32_t>(whole.slopes.size());
    for (Point p : part.points) {
      p.first += shift;
      p.last += shift;
      whole.points.push_back(p);
    }
    whole.slopes.insert(whole.slopes.end(), part.slopes.begin(), part.slopes.end());
    part = {};
  }
  return whole;
}

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
