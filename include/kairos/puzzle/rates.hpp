// Of the players of a rating, how many would play a move: its find rate when it is the right one;
// and how many would play all that a puzzle asks, one after another: its solve rate. Plain data.
//
// Shares come from the model of players (people/shares.hpp) and are kept for `told_ratings`;
// between them they follow straight lines, and beyond them the nearest counts. The model was fitted
// on players from 1700 up: what is told of 1600 it extrapolates. A level is the rating of those a
// puzzle is for.
#pragma once

#include <array>

#include "kairos/rules/move.hpp"

namespace kairos::study {
class Crowd;
}

namespace kairos::puzzle {

inline constexpr std::array told_ratings = {1600, 2000, 2400, 2800};

// For each of them, of `study::find_rate_of` players; at least 1.
using Rates = std::array<int, told_ratings.size()>;

Rates rates_of(const study::Crowd& crowd, rules::Move move);
// Of those whom `first` counts, the ones whom `then` counts as well. Who has found one only move
// finds the next as often as others of his rating (src/people/MEASURED.md).
Rates both_of(const Rates& first, const Rates& then);

// 0 .. 1.
double rate_at(const Rates& rates, int rating);
// The rating that counts for `rating`: itself, or the nearest of whom shares are told.
int nearest_told(int rating);

// Exercises of other sources have none: all are 0.
bool are_known(const Rates& rates);
// Neither beyond those of that level nor plain to them: from 1 to 7 in 10 solve it.
inline constexpr double fitting_least = 0.1, fitting_most = 0.7;
bool fits_level(const Rates& solve_rates, int level);

// Difficulty, 1 easy .. 5 very hard: bands of the solve rate of players rated `study::unrated`.
// From 0.70 it is 1, from 0.50 it is 2, from 0.30 it is 3, from 0.15 it is 4.
int difficulty_of(const Rates& solve_rates);

}  // namespace kairos::puzzle
