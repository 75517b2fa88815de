// Sentences about habits, for every report that people read.
#pragma once

#include <string>
#include <string_view>

#include "kairos/habits/habit.hpp"

namespace kairos::report {

// "4.3 %"; rates are small, so with a decimal.
std::string rate_text(double share);
// "2430", "1600 or less", "2800 or more".
std::string rating_words(int rating);
// Not where the interval is all that can be told of: 1600 to 2800.
bool tells_rating(const habits::Expectation& expectation);
// "0.84 to 1.31".
std::string times_interval(const base::Interval& interval);

// What is counted, in how many games, and how the player compares in all.
std::string habits_opening(const habits::Habits& habits);
// All errors against what was to be expected, and the rating of those who make as many, or that the
// games are too few; "" where it is not known.
std::string expectation_text(const habits::Habits& habits);
// The titles of the lists, and what these are measured by where there are any.
// `opponent` as for habits_text.
std::string more_title(const habits::Habits& habits, std::string_view opponent);
std::string fewer_title(const habits::Habits& habits, std::string_view opponent);
std::string measure_text(const habits::Habits& habits, std::string_view opponent);
// "More errors in rook endings: 9.1 % of 318 decisions (95 %: 6.4 to 12.8 %), the field ...".
std::string habit_sentence(const habits::Habits& habits, const habits::Habit& habit);
// The same, and how many more games would tell.
std::string unsure_sentence(const habits::Habits& habits, const habits::Habit& habit);
// "1991-1994 4.0 %, 1995-1998 5.1 %", "" where dates do not allow.
std::string years_text(const habits::Habit& habit);
// Why there is none, and what would help.
std::string no_habit_text(const habits::Habits& habits);
// "31. Qd2 cost 34 % (by the survey); better was 31. Rd1. White - Black, ...".
std::string example_text(const habits::Example& example);

}  // namespace kairos::report
