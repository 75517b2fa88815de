// A season over time: how games fall into periods, and what is counted by the clock. Figures are
// invented.
#include <catch2/catch.hpp>

#include "support/seasons.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

struct Played {
  std::string event, date, result;
  int swings = 0;
};

std::vector<habits::Period> periods_of(const std::vector<Played>& all) {
  std::vector<Study> games;
  for (const Played& played : all) {
    std::vector<Moment> moments;
    for (int i = 0; i < played.swings; ++i) moments.push_back(swing(2 * i, level, lost));
    games.push_back(game(played.result, moments));
    games.back().facts.event = played.event;
    games.back().facts.date = played.date;
  }
  return season_of(games).periods;
}

}  // namespace

TEST_CASE("over time by event, in the order of time, with the interval of games") {
  const auto periods = periods_of({{"Open", "2026.05.01", "1-0", 0},
                                   {"Open", "2026.05.02", "1/2-1/2", 2},
                                   {"Open", "2026.05.??", "*", 1},
                                   {"League", "2025.10.03", "0-1", 1},
                                   {"League", "2026.02.03", "1-0", 0},
                                   {"League", "2026.??.??", "1-0", 0}});
  REQUIRE(periods.size() == 2);
  CHECK(periods[0].event == "League");
  CHECK(periods[0].first_half == 2 * 2025 + 1);
  CHECK(periods[0].games == 3);
  CHECK(periods[0].half_points == 4);
  CHECK(periods[1].event == "Open");
  CHECK(periods[1].games == 3);
  CHECK(periods[1].with_result == 2);
  CHECK(periods[1].half_points == 3);
  CHECK(periods[1].swings == 3);
  CHECK(periods[1].games_with_swing == 2);
  const base::Interval wilson = base::wilson_interval(2, 3);
  CHECK(periods[1].interval().low == wilson.low);
  CHECK(periods[1].interval().high == wilson.high);
}

TEST_CASE("an event of another year is another event") {
  std::vector<Played> games;
  for (const char* date : {"2024.05.01", "2025.05.01", "2026.05.01"}) {
    for (int i = 0; i < 3; ++i) games.push_back({"Open", date, "1-0", 0});
  }
  const auto periods = periods_of(games);
  REQUIRE(periods.size() == 3);
  CHECK(periods[2].event == "Open");
  CHECK(periods[2].first_half == 2 * 2026);
}

TEST_CASE("over time by half-years where the events are many or have no name") {
  const auto many = periods_of({{"One", "2026.01.01", "1-0", 0},
                                {"Two", "2026.06.30", "1-0", 0},
                                {"Three", "2026.07.01", "1-0", 1},
                                {"Four", "????.??.??", "1-0", 0}});
  REQUIRE(many.size() == 3);
  CHECK(many[0].event.empty());
  CHECK(many[0].first_half == 2 * 2026);
  CHECK(many[0].games == 2);
  CHECK(many[1].first_half == 2 * 2026 + 1);
  CHECK(many[2].first_half == 0);
  const auto nameless = periods_of({{"?", "2025.01.01", "1-0", 0},
                                    {"Open", "2026.01.01", "1-0", 0},
                                    {"Open", "2026.01.01", "1-0", 0}});
  REQUIRE(nameless.size() == 2);
  CHECK(nameless[1].first_half == 2 * 2026);
}

TEST_CASE("a long life is told in spans of years, twelve at most") {
  std::vector<Played> games;
  for (int year = 1990; year < 2026; ++year) {
    games.push_back({"?", std::to_string(year) + ".03.01", "1-0", 0});
  }
  const auto periods = periods_of(games);
  REQUIRE(periods.size() == 12);
  CHECK(periods[0].first_half == 2 * 1990);
  CHECK(periods[0].last_half == 2 * 1992 + 1);
  CHECK(periods[0].games == 3);
  CHECK(periods[11].last_half == 2 * 2025 + 1);
}

TEST_CASE("where all games fall into one period nothing is told over time") {
  CHECK(periods_of({}).empty());
  CHECK(periods_of({{"Open", "2026.05.01", "1-0", 0}, {"Open", "2026.05.02", "1-0", 0}}).empty());
  CHECK(periods_of({{"Open", "2026.05.01", "1-0", 0}, {"Cup", "2026.05.02", "1-0", 0}}).empty());
}

namespace {

// A game with a clock for each move of White (the player), from an hour; each position with a
// choice, the second best worth `second` and the move played nothing less than the best.
Study timed_game(const std::vector<int>& left, search::Score second, std::vector<Moment> moments) {
  Study study = game("1-0", std::move(moments));
  for (std::size_t i = 0; i < study.moves.size(); ++i) {
    study.notes[i].lines = {{.score = 0, .moves = {study.moves[i]}},
                            {.score = second, .moves = {study.moves[i]}}};
    if (i % 2 == 0 && i / 2 < left.size()) study.notes[i].clock_seconds = left[i / 2];
  }
  return study;
}

struct Band {
  int least = 0;
  std::uint64_t one_good = 0, several_good = 0, errors = 0;
  friend bool operator==(const Band&, const Band&) = default;
};

std::vector<Band> counted(const std::vector<habits::TimeBand>& bands) {
  std::vector<Band> all;
  for (const habits::TimeBand& b : bands) {
    all.push_back({b.least, b.one_good.decisions, b.several_good.decisions, b.all().errors});
  }
  return all;
}

}  // namespace

TEST_CASE("by the clock errors are counted by the time left before the move and taken for it") {
  // Taken: not known, 5 s, 10 s, 60 s, 1,000 s, and after that nothing is known.
  Study study = timed_game({3600, 3595, 3585, 3525, 2525}, 0, {});
  study.notes[6].played_score = worse;    // the fourth move, 60 s: an error
  study.notes[8].lines[1].score = worse;  // the fifth, 1,000 s: only one was good
  const habits::Season season = season_of({study});
  CHECK(season.clock.games == 1);
  CHECK(counted(season.clock.by_left) == std::vector<Band>{{1800, 1, 4, 1}});
  CHECK(counted(season.clock.by_spent) ==
        std::vector<Band>{{0, 0, 1, 0}, {10, 0, 1, 0}, {60, 0, 1, 1}, {900, 1, 0, 0}});
  const habits::Season without = season_of({timed_game({}, 0, {})});
  CHECK(without.clock.games == 0);
  CHECK(without.clock.by_left.empty());
  // A clock that gains more than the move took does not tell how long that was.
  const habits::Season gained = season_of({timed_game({3600, 3610}, 0, {})});
  CHECK(counted(gained.clock.by_left) == std::vector<Band>{{1800, 0, 2, 0}});
  CHECK(gained.clock.by_spent.empty());
}

TEST_CASE("an error made quickly: under a two-hundredth of the hour, with a tenth of it left") {
  const auto quick = [](const std::vector<int>& left, const Moment& m) {
    return !season_of({timed_game(left, 0, {m})}).quick_errors.entries.empty();
  };
  CHECK(quick({3600, 3583}, swing(2, level, lost)));
  CHECK_FALSE(quick({3600, 3582}, swing(2, level, lost)));  // 18 s are a two-hundredth
  CHECK(quick({3600, 360, 350}, swing(4, level, lost)));
  CHECK_FALSE(quick({3600, 359, 350}, swing(4, level, lost)));
  CHECK_FALSE(quick({}, swing(2, level, lost)));
  CHECK(quick({3600, 3590}, ask(Kind::only_move, 2, false, 900)));
  CHECK_FALSE(quick({3600, 3590}, ask(Kind::only_move, 2, true, 900)));
  CHECK_FALSE(quick({3600, 3590}, swing(3, level, lost)));
  CHECK_FALSE(quick({3600, 3590}, trap(2, lost)));
}

TEST_CASE(
    "a long think: a tenth of the hour for one move on which little hung, the longest first") {
  const std::vector<int> left = {3600, 3240, 2881, 2500, 1500};  // 360, 359, 381 and 1,000 s
  const habits::Season season = season_of({timed_game(left, 0, {})});
  CHECK(places(season, season.long_thinks) == "0:8 0:6 0:2");
  Study study = timed_game(left, -14, {});  // 3.4 % less
  CHECK(season_of({study}).long_thinks.entries.empty());
  study = timed_game(left, 0, {});
  study.notes[8].played_score = worse;
  CHECK(places(season_of({study}), season_of({study}).long_thinks) == "0:6 0:2");
}
