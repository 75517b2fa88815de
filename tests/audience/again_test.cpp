// When a puzzle comes again: days, intervals, the order of asking.
#include "kairos/audience/again.hpp"

#include <catch2/catch.hpp>

using namespace kairos;
using namespace kairos::audience;

namespace {

Day day(const char* text) {
  const auto read = parse_day(text);
  REQUIRE(read);
  return *read;
}

}  // namespace

TEST_CASE("the days double up to half a year, and one missed begins anew") {
  QuizScore score;
  Day today = day("2026-08-02");
  std::vector<int> intervals;
  for (int i = 0; i < 8; ++i) {
    grade(score, true, today);
    CHECK(score.due == today + std::chrono::days{score.days});
    intervals.push_back(score.days);
    today = score.due;
  }
  CHECK(intervals == std::vector<int>{4, 8, 16, 32, 64, 128, 180, 180});
  grade(score, false, today);
  CHECK(score.days == 1);
  grade(score, true, today);
  CHECK(score.days == 2);
  CHECK(score.asked == 10);
  CHECK(score.right == 9);
}

TEST_CASE("days are read and written, leap years and bad dates") {
  for (const char* good : {"1970-01-01", "2024-02-29", "2026-12-31", "9999-12-31"}) {
    CHECK(day_text(day(good)) == good);
  }
  CHECK(day("2024-03-01") - day("2024-02-28") == std::chrono::days{2});
  for (const char* bad : {"", "2026-02-29", "2026-13-01", "2026-00-10", "2026-1-1", "1969-12-31",
                          "02.08.2026", "2026-08-0x", "-026-08-01", "2026--8-01"}) {
    INFO(bad);
    CHECK_FALSE(parse_day(bad));
  }
}

TEST_CASE("due ones are asked first, the longest overdue before, then new ones in their order") {
  const auto due = [](const char* date) { return QuizScore{"", 1, 0, 1, day(date)}; };
  const QuizScores scores = {{"b", due("2026-08-01")}, {"d", due("2026-07-30")},
                             {"e", due("2026-08-02")}, {"f", due("2026-08-09")},
                             {"g", due("2026-08-05")}, {"elsewhere", due("2026-08-03")}};
  const DuePuzzles puzzles =
      due_puzzles({"a", "b", "c", "d", "e", "f", "g", "a"}, scores, day("2026-08-02"));
  CHECK(puzzles.asked == std::vector<std::size_t>{3, 1, 4, 0, 2});
  CHECK(puzzles.next == day("2026-08-05"));
}
