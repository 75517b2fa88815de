// The model itself: a conditional logit (McFadden 1974). A move's pull is the sum of its terms,
// each times its weight at the rating; its share is e^pull over the sum of e^pull of all legal
// moves.
//
// A weight goes in a straight line from what it is at `low_rating` to what it is at `high_rating`;
// ratings beyond these count as these. That sensitivity to costs depends on the rating is the idea
// of Regan and Haworth (2011).
#pragma once

#include <array>
#include <span>
#include <string_view>
#include <vector>

#include "terms.hpp"

namespace kairos::people {

inline constexpr double low_rating = 1200, high_rating = 2850;

struct Weight {
  std::string_view term;
  double at_low = 0, at_high = 0;
};
using Weights = std::array<Weight, term_count>;

// As fitted (parameters.inc).
const Weights& fitted_weights();

// 0 at `low_rating`, 1 at `high_rating`.
double place_of(double rating);

// The shares of moves with these pulls; they add up to 1.
std::vector<double> shares_of_pulls(std::span<const double> pulls);

}  // namespace kairos::people
