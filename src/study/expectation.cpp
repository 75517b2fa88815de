// The expectation curve as a table, computed by the compiler.
//
// One division of the curve's scale gives the ratio between neighbouring steps of one centipawn;
// its powers give e^(-s/scale) for every s by one multiplication each. All of it is plain IEEE
// arithmetic done at compile time, so no machine's library of exponentials has a say.
#include "kairos/study/expectation.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

namespace kairos::study {

namespace {

// Centipawns over which the odds grow by e, as scripts/fit_expectation finds it in open tournament
// files (method, interval and reliability: MEASURED.md).
constexpr double scale = 102.0;

// Beyond this the curve is flat (0.9999 of certainty); a mate alone is certain.
constexpr int table_end = 2000;

// e^x by its series, near zero where twelve terms are exact to the last bit or two.
constexpr double exponential(double x) {
  double sum = 1, term = 1;
  for (int n = 1; n <= 12; ++n) {
    term *= x / n;
    sum += term;
  }
  return sum;
}

constexpr std::array<double, table_end + 1> make_table() {
  std::array<double, table_end + 1> table{};
  const double ratio = exponential(-1 / scale);
  double power = 1;
  for (double& entry : table) {
    entry = 1 / (1 + power);
    power *= ratio;
  }
  return table;
}

constexpr std::array<double, table_end + 1> table = make_table();

}  // namespace

double expectation(search::Score score) {
  if (search::is_mate(score)) return score > 0 ? 1 : 0;
  const auto at = static_cast<std::size_t>(std::min(score < 0 ? -score : score, table_end));
  return score < 0 ? 1 - table[at] : table[at];
}

Standing standing_of(double e) {
  if (e >= 0.92) return Standing::won;
  if (e > 0.62) return Standing::better;
  if (e >= 0.38) return Standing::level;
  if (e > 0.08) return Standing::worse;
  return Standing::lost;
}

}  // namespace kairos::study
