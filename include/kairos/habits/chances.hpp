// How likely a player of a rating was to err in a decision: what the study has of it by the model
// of players (study::ErrorChances), set right by what was measured of people in real games.
//
// The model knows the board and the rating; it does not know that people err more before the time
// control, say, and it looks at moves with few nodes. So its log odds are multiplied and moved by
// constants, one of them for each circumstance that every game has: fitted on some games, tried on
// others (src/habits/MEASURED.md). A circumstance in which everybody errs more than the model says
// is no habit of anybody's.
//
// A. E. Elo's ratings; beyond study::chance_ratings the nearest counts. Pure functions.
#pragma once

#include <optional>
#include <span>

#include "kairos/habits/decisions.hpp"

namespace kairos::habits {

// 0 .. 1. The study must have its chances.
double chance_of_error(const Decision& decision, int rating);
// The same for the one who made it; unrated ones as study::rating_of.
double chance_of_error(const Decision& decision);

// What it is made of: the log odds that the study has, and how many times 400 points the rating is
// above 2200.
double log_odds_by_model(const Decision& decision, double rating);
double place_of_rating(double rating);

// Nothing where games or errors are too few (statistics.hpp). Decisions without chances, of which
// nothing is known, do not count.
std::optional<Expectation> expectation_of(std::span<const Decision> decisions);

}  // namespace kairos::habits
