// Expectation: the expected score (0 lost .. 0.5 drawn .. 1 won) of the side to move.
//
// A logistic curve of the centipawn score, fitted on the results of open game collections by
// scripts/fit_expectation; mates count as certain. The curve is tabulated by integer steps of one
// centipawn at compile time, so that every machine gives the same bits. Scores and expectations are
// both from the side to move; 1 - e is the other side's.
#pragma once

#include <cstdint>

#include "kairos/search/score.hpp"

namespace kairos::study {

double expectation(search::Score score);

// Where a side stands, by its expectation.
enum class Standing : std::uint8_t { lost, worse, level, better, won };
Standing standing_of(double expectation);

}  // namespace kairos::study
