// What part of the players of a rating would play each legal move, from the board and from the
// verdicts handed over. Nothing is searched here.
//
// A conditional logit fitted on some two thousand rated games; what it is worth on events that it
// was not fitted on: src/people/MEASURED.md. The same input gives the same shares to the bit on any
// machine. Pure functions; a rating is any number, and beyond `least_fitted` .. `most_fitted` the
// answer says that it extrapolates.
//
//   const auto judged = study::judge_all_moves(position, earlier);
//   const people::Shares shares = people::shares(position, {}, judged, 1900);
#pragma once

#include <span>

#include "kairos/people/share.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::people {

// The ratings that the games it was fitted on had players of.
inline constexpr int least_fitted = 1700, most_fitted = 2850;

// `judged` holds every legal move once.
Shares shares(const rules::Position& position, const Before& before, std::span<const Judged> judged,
              int rating);

// That of one of the moves; 0 when it is none of them.
double share_of(rules::Move move, std::span<const Judged> judged, const Shares& shares);

}  // namespace kairos::people
