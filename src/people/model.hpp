// The model itself: three choosers. A conditional logit each (McFadden 1974): a move's pull is the
// sum of its terms, each times its weight at the rating, and its share is e^pull over the sum of
// e^pull of all legal moves. The first chooser goes by what moves cost in the end alone, the second
// by everything, the third by short looks and the board alone. A move's share is that of all three,
// weighed by how many of the players of the rating choose so: with the second alone the model is
// too sure of moves that are easy to see, and too unsure of those that are not. Even the three
// together are, a little; so the mixture is sharpened where no move stands out, and blunted where
// one does.
//
// A weight goes in a straight line from what it is at `low_rating` to what it is at `high_rating`,
// the parts of the choosers in two lines over three ratings; ratings beyond count as the last of
// these. That sensitivity to costs depends on the rating is the idea of Regan and Haworth (2011).
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "terms.hpp"

namespace kairos::people {

inline constexpr double low_rating = 1200, high_rating = 2850;

enum Chooser : std::uint8_t { calculates, weighs_all, glances };
inline constexpr std::size_t chooser_count = 3;
// Whether that chooser goes by terms of that group.
constexpr bool goes_by(std::size_t chooser, Group group) {
  if (chooser == calculates) return group == Group::in_the_end;
  return chooser == weighs_all || group != Group::in_the_end;
}

// At the low and at the high rating.
using TwoEnds = std::array<double, 2>;
struct Weight {
  std::string_view term;
  std::array<TwoEnds, chooser_count> of;
};
using Weights = std::array<Weight, term_count>;

// As fitted (parameters.inc).
const Weights& fitted_weights();

// 0 at `low_rating`, 1 at `high_rating`.
double place_of(double rating);

// The parts of the choosers are given at these ratings.
inline constexpr std::array<double, 3> part_ratings = {1700, 2200, 2850};
using Nearness = std::array<double, part_ratings.size()>;
using Parts = std::array<std::array<double, part_ratings.size()>, chooser_count>;

// How near a rating is to each of them: of two neighbours, together 1.
Nearness nearness_of(double rating);
// The part of each chooser, together 1.
std::array<double, chooser_count> parts_at(const Parts& parts, double rating);

// Each share is raised to a power, and all together made 1 again; the power is `at_nothing` plus
// `with_greatest` times the greatest share.
struct Sharpness {
  double at_nothing = 1, with_greatest = 0;
};
std::vector<double> sharpened(std::vector<double> shares, const Sharpness& by);

// The shares of moves with these pulls; they add up to 1.
std::vector<double> shares_of_pulls(std::span<const double> pulls);

}  // namespace kairos::people
