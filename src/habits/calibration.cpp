#include "calibration.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace kairos::habits {

namespace {

struct Measured {
  std::string_view words;
  double value;
};

#include "calibration.inc"

// Beside those that the rest was fitted on: what brings as many errors to be expected, for each
// that there was, in the same games (MEASURED.md). Between them by the logarithm.
struct Effort {
  double nodes, log_odds;
};
constexpr std::array<Effort, 3> efforts = {{{8'000, 0.49}, {30'000, 0}, {200'000, -0.31}}};

template <std::size_t count>
std::optional<double> value_of(const std::array<Measured, count>& list, std::string_view words) {
  const auto at = std::ranges::find(list, words, &Measured::words);
  return at == list.end() ? std::nullopt : std::optional(at->value);
}

}  // namespace

std::optional<double> log_odds_of(std::string_view circumstance) {
  return value_of(circumstances, circumstance);
}

std::optional<double> part_of_errors(std::string_view flaw) {
  return value_of(flaws, flaw);
}

double log_odds_of_all() {
  return all;
}

double by_model() {
  return model;
}

double by_model_squared() {
  return model_squared;
}

double by_effort(std::uint64_t nodes) {
  const auto n =
      std::clamp(static_cast<double>(nodes), efforts.front().nodes, efforts.back().nodes);
  std::size_t upper = 1;
  while (n > efforts[upper].nodes) ++upper;
  const auto& [low, at_low] = efforts[upper - 1];
  const auto& [high, at_high] = efforts[upper];
  return at_low + (at_high - at_low) * std::log(n / low) / std::log(high / low);
}

double by_gap() {
  return gap;
}

double by_rating() {
  return rating;
}

}  // namespace kairos::habits
