#include "calibration.hpp"

#include <algorithm>
#include <array>

namespace kairos::habits {

namespace {

struct Measured {
  std::string_view words;
  double value;
};

#include "calibration.inc"

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

double by_gap() {
  return gap;
}

double by_rating() {
  return rating;
}

}  // namespace kairos::habits
