#include "model.hpp"

#include <algorithm>
#include <utility>

#include "kairos/people/shares.hpp"

#include "exponential.hpp"

namespace kairos::people {

namespace {

#include "parameters.inc"

constexpr bool names_agree() {
  for (std::size_t i = 0; i < term_count; ++i) {
    if (weights[i].term != terms[i].name) return false;
  }
  return true;
}
static_assert(names_agree(), "parameters.inc and terms.hpp list the same terms");

constexpr double least_share = 1e-9;  // one in so many: nobody

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

Nearness nearness_of(double rating) {
  Nearness nearness{};
  const double r = std::clamp(rating, part_ratings.front(), part_ratings.back());
  std::size_t upper = 1;
  while (r > part_ratings[upper]) ++upper;
  const double below = part_ratings[upper - 1];
  nearness[upper] = (r - below) / (part_ratings[upper] - below);
  nearness[upper - 1] = 1 - nearness[upper];
  return nearness;
}

std::array<double, chooser_count> parts_at(const Parts& given, double rating) {
  const Nearness nearness = nearness_of(rating);
  std::array<double, chooser_count> at{};
  double rest = 1;  // for the last: what is written of the parts is rounded
  for (std::size_t k = 0; k + 1 < chooser_count; ++k) {
    for (std::size_t i = 0; i < nearness.size(); ++i) at[k] += nearness[i] * given[k][i];
    rest -= at[k];
  }
  at.back() = rest;
  return at;
}

std::vector<double> sharpened(std::vector<double> shares, const Sharpness& by) {
  if (shares.empty()) return shares;
  const double power = by.at_nothing + by.with_greatest * *std::ranges::max_element(shares);
  // A power as a pull: shares of pulls add up to 1.
  for (double& share : shares) share = power * logarithm(std::max(share, least_share));
  return shares_of_pulls(shares);
}

Shares shares(const rules::Position& position, const Before& before, std::span<const Judged> judged,
              int rating) {
  const std::vector<Row> rows = rows_of(position, before, judged);
  const double place = place_of(rating);
  const auto part = parts_at(parts, rating);
  Shares shares{std::vector<double>(judged.size()), rating < least_fitted || rating > most_fitted};
  std::vector<double> pulls(judged.size());
  for (std::size_t k = 0; k < chooser_count; ++k) {
    for (std::size_t m = 0; m < rows.size(); ++m) {
      pulls[m] = 0;
      for (std::size_t i = 0; i < term_count; ++i) {
        const auto [low, high] = weights[i].of[k];
        pulls[m] += rows[m][i] * (low + place * (high - low));
      }
    }
    const std::vector<double> chosen = shares_of_pulls(pulls);
    for (std::size_t m = 0; m < rows.size(); ++m) shares.of[m] += part[k] * chosen[m];
  }
  shares.of = sharpened(std::move(shares.of), sharpness);
  return shares;
}

double share_of(rules::Move move, std::span<const Judged> judged, const Shares& shares) {
  for (std::size_t i = 0; i < judged.size(); ++i) {
    if (judged[i].move == move) return shares.of[i];
  }
  return 0;
}

}  // namespace kairos::people
