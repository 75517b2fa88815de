// How a person did with each puzzle so far, and when it comes again.
//
// The scores as text are JSON Lines: first {"kairos":"quiz scores","version":1}, then an object for
// each puzzle that was asked:
//   position     what tells puzzles apart: the four fields of EPD (ids may stand in several files)
//   id           as it was when last asked, for the reader
//   asked right  how many times; asked is at least 1
//   days         from when it was last asked until it comes again, 1 to 180
//   due          when it comes again, "2026-08-03"
// A puzzle that was missed comes again on the next day; each right answer then doubles the days.
// One that was answered right when it was first met comes again after four. Nothing here reads the
// clock.
#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/puzzle/exercise.hpp"

namespace kairos::audience {

using Day = std::chrono::sys_days;

// "2026-08-03", of the years 1970 to 9999.
std::optional<Day> parse_day(std::string_view text);
std::string day_text(Day day);

struct QuizScore {
  std::string id;
  int asked = 0;
  int right = 0;
  int days = 0;
  Day due;

  friend bool operator==(const QuizScore&, const QuizScore&) = default;
};

// By position.
using QuizScores = std::map<std::string, QuizScore>;

// An empty text holds none. Faults: not_a_score_file, score_damaged or json_damaged with `file` and
// line.
base::Result<QuizScores> parse_scores(std::string_view text, const std::string& file);
std::string to_text(const QuizScores& scores);

// Counts an answer given on that day.
void grade(QuizScore& score, bool right, Day today);

// What tells the puzzle apart among the scores.
std::string position_of(const puzzle::Exercise& exercise);

struct DuePuzzles {
  std::vector<std::size_t> asked;  // indices of the positions: those due, the longest first, then
                                   // those never asked, in their order
  std::optional<Day> next;         // when the first of the others comes again
};

// A position that stands there twice is asked once.
DuePuzzles due_puzzles(const std::vector<std::string>& positions, const QuizScores& scores,
                       Day today);

}  // namespace kairos::audience
