#include "model.hpp"

#include <algorithm>

#include "kairos/people/shares.hpp"

#include "exponential.hpp"

namespace kairos::people {

namespace {

constexpr Weights weights = {{
#include "parameters.inc"
}};

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

Shares shares(const rules::Position& position, const Before& before, std::span<const Judged> judged,
              int rating) {
  const double place = place_of(rating);
  std::vector<double> pulls;
  for (const Row& row : rows_of(position, before, judged)) {
    double pull = 0;
    for (std::size_t i = 0; i < term_count; ++i) {
      pull += row[i] * (weights[i].at_low + place * (weights[i].at_high - weights[i].at_low));
    }
    pulls.push_back(pull);
  }
  return {shares_of_pulls(pulls), rating < least_fitted || rating > most_fitted};
}

double share_of(rules::Move move, std::span<const Judged> judged, const Shares& shares) {
  for (std::size_t i = 0; i < judged.size(); ++i) {
    if (judged[i].move == move) return shares.of[i];
  }
  return 0;
}

}  // namespace kairos::people
