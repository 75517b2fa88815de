// Sets the chances of the model right by what rated players did, for src/habits/calibration.inc:
//
//   kairos_chances_fit LEDGERS... > calibration.inc
//
// Logistic regression of whether a decision was an error on the log odds that the study has of it
// at the player's rating, on the rating and on the circumstances, by Newton's method; what
// circumstances add is held small (each as if drawn from a normal curve of deviation 0.3). Flaws:
// which part of the errors they were, of the decisions that could have brought them.
#include <algorithm>
#include <cmath>
#include <iostream>
#include <map>

#include "kairos/base/text.hpp"
#include "kairos/habits/chances.hpp"

#include "rows.hpp"
#include "situation.hpp"

using namespace kairos;

namespace {

using Vector = std::vector<double>;

struct Case {
  std::vector<std::pair<std::size_t, double>> terms;  // parameter and value
  bool error = false;
};

constexpr std::size_t fixed_terms = 5;  // all, model, rating, gap, square of model
constexpr double deviation = 0.3;
constexpr double longest_step = 0.3;  // of Newton's method: it does not leap where it knows little

bool is_fitted(const habits::Topics::Topic& topic) {
  const auto of_opening = [&](std::string_view begin) { return topic.words.starts_with(begin); };
  return topic.kind == habits::TopicKind::circumstance && !habits::is_of_the_clock(topic.words) &&
         !of_opening("in openings of ECO") && !of_opening("in games that begin");
}

// Solves for the step of Newton's method; the matrix is symmetric and positive.
Vector solved(std::vector<Vector> a, Vector b) {
  const std::size_t n = b.size();
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) {
      const double factor = a[j][i] / a[i][i];
      for (std::size_t k = i; k < n; ++k) a[j][k] -= factor * a[i][k];
      b[j] -= factor * b[i];
    }
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) b[i] -= a[i][k] * b[k];
    b[i] /= a[i][i];
  }
  return b;
}

Vector fitted(const std::vector<Case>& cases, std::size_t count) {
  Vector w(count, 0.0);
  w[0] = -2.5;  // about how rare errors are
  for (int round = 0; round < 40; ++round) {
    Vector gradient(count, 0.0);
    std::vector<Vector> curvature(count, Vector(count, 0.0));
    for (std::size_t i = fixed_terms; i < count; ++i) {
      gradient[i] = -w[i] / (deviation * deviation);
      curvature[i][i] = 1 / (deviation * deviation);
    }
    for (const Case& c : cases) {
      double log_odds = 0;
      for (const auto& [i, x] : c.terms) log_odds += w[i] * x;
      const double p = 1 / (1 + std::exp(-log_odds));
      for (const auto& [i, x] : c.terms) {
        gradient[i] += x * ((c.error ? 1 : 0) - p);
        for (const auto& [j, y] : c.terms) curvature[i][j] += x * y * p * (1 - p);
      }
    }
    const Vector step = solved(curvature, gradient);
    double greatest = 0;
    for (const double s : step) greatest = std::max(greatest, std::abs(s));
    const double part = greatest > longest_step ? longest_step / greatest : 1;
    for (std::size_t i = 0; i < count; ++i) w[i] += part * step[i];
  }
  return w;
}

std::string digits(double value) {
  return base::fixed(value, 4);
}

void print_table(std::string_view name, const std::vector<std::pair<std::string, double>>& values) {
  std::cout << "constexpr std::array<Measured, " << values.size() << "> " << name << " = {{\n";
  for (const auto& [words, value] : values) {
    std::cout << "    {\"" << words << "\", " << digits(value) << "},\n";
  }
  std::cout << "}};\n";
}

std::vector<std::pair<std::string, double>> parts_of_flaws(const expect::Rows& rows) {
  std::vector<std::pair<std::string, double>> parts;
  for (std::size_t t = 0; t < rows.topics.all().size(); ++t) {
    const habits::Topics::Topic& topic = rows.topics.all()[t];
    if (topic.kind != habits::TopicKind::flaw) continue;
    double errors = 0, flaws = 0;
    for (const expect::Row& row : rows.rows) {
      const auto has = [&](std::size_t id) {
        return std::ranges::count(row.decision.topics, static_cast<habits::TopicId>(id)) > 0;
      };
      if (!row.decision.error || (topic.among && !has(*topic.among))) continue;
      ++errors;
      flaws += has(t) ? 1 : 0;
    }
    parts.emplace_back(topic.words, flaws / errors);
  }
  return parts;
}

}  // namespace

int main(int argc, char** argv) {
  expect::Rows rows;
  for (int i = 1; i < argc; ++i) {
    if (!expect::add(argv[i], rows)) return 1;
  }
  if (rows.rows.empty()) {
    std::cerr << "usage: kairos_chances_fit LEDGERS... > calibration.inc\n";
    return 2;
  }
  std::map<habits::TopicId, std::size_t> parameters;
  for (std::size_t t = 0; t < rows.topics.all().size(); ++t) {
    if (!is_fitted(rows.topics.all()[t])) continue;
    parameters.emplace(static_cast<habits::TopicId>(t), fixed_terms + parameters.size());
  }
  std::vector<Case> cases;
  double errors = 0;
  for (const expect::Row& row : rows.rows) {
    Case c;
    const double model = habits::log_odds_by_model(row.decision, row.decision.rating);
    c.terms = {{0, 1.0},
               {1, model},
               {2, habits::place_of_rating(row.decision.rating)},
               {3, row.gap},
               {4, model * model}};
    for (const habits::TopicId topic : row.decision.topics) {
      if (const auto at = parameters.find(topic); at != parameters.end())
        c.terms.emplace_back(at->second, 1.0);
    }
    c.error = row.decision.error;
    errors += c.error ? 1 : 0;
    cases.push_back(std::move(c));
  }
  const Vector w = fitted(cases, fixed_terms + parameters.size());
  std::vector<std::pair<std::string, double>> circumstances;
  for (const auto& [topic, at] : parameters)
    circumstances.emplace_back(rows.topics.all()[topic].words, w[at]);
  std::ranges::sort(circumstances);
  std::cout << "// Written by kairos_chances_fit from " << cases.size() << " decisions with "
            << errors << " errors (MEASURED.md).\n"
            << "constexpr double all = " << digits(w[0]) << ", model = " << digits(w[1])
            << ", model_squared = " << digits(w[4])
            << ",\n                 rating = " << digits(w[2]) << ", gap = " << digits(w[3])
            << ";\n";
  print_table("circumstances", circumstances);
  print_table("flaws", parts_of_flaws(rows));
  return 0;
}
