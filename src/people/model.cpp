#include "model.hpp"

#include <algorithm>

#include "kairos/people/shares.hpp"

#include "exponential.hpp"

namespace kairos::people {

namespace {

constexpr Weights weights = {{
#include "parameters.inc"
}};

constexpr Thinkers thinkers = {0.7, 0.7, 0.7};

constexpr bool names_agree() {
  for (std::size_t i = 0; i < term_count; ++i) {
    if (weights[i].term != terms[i].name) return false;
  }
  return true;
}
static_assert(names_agree(), "parameters.inc and terms.hpp list the same terms");

}  // namespace

const Weights& fitted_weights() {
  return weights;
}

double place_of(double rating) {
  return std::clamp((rating - low_rating) / (high_rating - low_rating), 0.0, 1.0);
}

std::vector<double> shares_of_pulls(std::span<const double> pulls) {
  constexpr double hopeless = -60;  // behind the greatest: a share of nothing
  std::vector<double> shares;
  if (pulls.empty()) return shares;
  const double greatest = *std::ranges::max_element(pulls);
  double sum = 0;
  for (const double pull : pulls) {
    shares.push_back(exponential(std::max(pull - greatest, hopeless)));
    sum += shares.back();
  }
  for (double& share : shares) share /= sum;
  return shares;
}

Thinkers nearness_of(double rating) {
  Thinkers nearness{};
  const double r = std::clamp(rating, thinker_ratings.front(), thinker_ratings.back());
  std::size_t upper = 1;
  while (r > thinker_ratings[upper]) ++upper;
  const double below = thinker_ratings[upper - 1];
  nearness[upper] = (r - below) / (thinker_ratings[upper] - below);
  nearness[upper - 1] = 1 - nearness[upper];
  return nearness;
}

double part_of_thinkers(const Thinkers& at, double rating) {
  const Thinkers nearness = nearness_of(rating);
  double part = 0;
  for (std::size_t i = 0; i < at.size(); ++i) part += nearness[i] * at[i];
  return part;
}

Shares shares(const rules::Position& position, const Before& before, std::span<const Judged> judged,
              int rating) {
  const double place = place_of(rating);
  std::vector<double> thinking, glancing;
  for (const Row& row : rows_of(position, before, judged)) {
    double by_thinking = 0, by_glancing = 0;
    for (std::size_t i = 0; i < term_count; ++i) {
      const Weight& w = weights[i];
      by_thinking += row[i] * (w.thinking_low + place * (w.thinking_high - w.thinking_low));
      by_glancing += row[i] * (w.glancing_low + place * (w.glancing_high - w.glancing_low));
    }
    thinking.push_back(by_thinking);
    glancing.push_back(by_glancing);
  }
  Shares shares{shares_of_pulls(thinking), rating < least_fitted || rating > most_fitted};
  const std::vector<double> others = shares_of_pulls(glancing);
  const double part = part_of_thinkers(thinkers, rating);
  for (std::size_t i = 0; i < others.size(); ++i) {
    shares.of[i] = part * shares.of[i] + (1 - part) * others[i];
  }
  return shares;
}

double share_of(rules::Move move, std::span<const Judged> judged, const Shares& shares) {
  for (std::size_t i = 0; i < judged.size(); ++i) {
    if (judged[i].move == move) return shares.of[i];
  }
  return 0;
}

}  // namespace kairos::people
