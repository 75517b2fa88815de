// The model itself: two choosers. A conditional logit each (McFadden 1974): a move's pull is the
// sum of its terms, each times its weight at the rating, and its share is e^pull over the sum of
// e^pull of all legal moves. The thinker goes by what moves cost in the end as well, the glancer by
// short looks and the board alone. A move's share is that of both, weighed by how many of the
// players of the rating are thinkers: without the second, the model is too sure of what is easy to
// calculate.
//
// A weight goes in a straight line from what it is at `low_rating` to what it is at `high_rating`,
// the part of thinkers in two lines over three ratings; ratings beyond count as the last of these.
// That sensitivity to costs depends on the rating is the idea of Regan and Haworth (2011).
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
  double thinking_low = 0, thinking_high = 0, glancing_low = 0, glancing_high = 0;
};
using Weights = std::array<Weight, term_count>;

// As fitted (parameters.inc).
const Weights& fitted_weights();

// 0 at `low_rating`, 1 at `high_rating`.
double place_of(double rating);

// The part of thinkers at each of these ratings.
inline constexpr std::array<double, 3> thinker_ratings = {1700, 2200, 2850};
using Thinkers = std::array<double, thinker_ratings.size()>;

// How near a rating is to each of them: of two neighbours, together 1.
Thinkers nearness_of(double rating);
double part_of_thinkers(const Thinkers& thinkers, double rating);

// The shares of moves with these pulls; they add up to 1.
std::vector<double> shares_of_pulls(std::span<const double> pulls);

}  // namespace kairos::people
