// Fits the weights of a conditional logit by maximum likelihood: Newton's method, each weight with
// its two ends (model.hpp), weights of costs and gains kept on their side of zero.
//
// What is made small: minus the log likelihood of the moves played, plus half of `size_penalty`
// times the square of each end and of `slope_penalty` times the square of their difference. That is
// convex, so there is one minimum and no seed.
#pragma once

#include <array>
#include <functional>
#include <vector>

#include "cases.hpp"
#include "model.hpp"

namespace kairos::people_tools {

inline constexpr double size_penalty = 1, slope_penalty = 4;
// Ends of all terms: at_low of term i at 2 i, at_high at 2 i + 1.
inline constexpr std::size_t end_count = 2 * people::term_count;
using Ends = std::array<double, end_count>;

// Shares of a case's moves.
std::vector<double> shares_of(const Cases& cases, const Case& c, const Ends& ends);

// Of the cases that `is_used` names; terms of other groups than `uses` allows stay at 0.
Ends fit(const Cases& cases, const std::function<bool(const Case&)>& is_used,
         const std::function<bool(const people::Term&)>& uses);

}  // namespace kairos::people_tools
