// What the table and the page of a count say in the same words.
#pragma once

#include <string>

#include "kairos/audience/evening.hpp"
#include "kairos/audience/tally.hpp"
#include "kairos/puzzle/exercise.hpp"

namespace kairos::report {

// What is right or wrong with a move, "..." where it is not known yet.
std::string verdict_of(const puzzle::Exercise& exercise, const audience::Tally::Row& row);

// "24 of 60 found it (40 %); of players rated 2000 about 31 % would"; "" where nothing is known of
// either.
std::string expected_text(const puzzle::Exercise& exercise, const audience::Tally& tally,
                          int level);

// "anna, bert and 3 more: 2 points".
std::string place_words(const audience::Place& place, std::size_t most);

}  // namespace kairos::report
