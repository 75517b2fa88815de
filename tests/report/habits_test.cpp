// The habits of a player in the reports: what is said, how it fits, and that names stay text.
#include "kairos/report/habits.hpp"

#include <catch2/catch.hpp>

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/player.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "support/report_bytes.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

// Figures are invented.
habits::Habits some_habits() {
  habits::Habits all;
  all.player = "Marrowby, <b>Silas";
  all.field = "the opponents in the same games";
  all.games = 120;
  all.circumstances = 44;
  all.player_rate = {310, 4'400};
  all.field_rate = {290, 4'380};
  all.games_for_double = 90;
  habits::Habit habit;
  habit.words = "in rook endings";
  habit.player = {29, 318};
  habit.field = {13, 309};
  habits::Example example;
  example.position = rules::parse_fen("8/r4pk1/6p1/8/8/6P1/R4PK1/8 w - - 0 50").value();
  example.played = rules::parse_san(example.position, "f4").value();
  example.best = rules::parse_san(example.position, "Rxa7").value();
  example.cost = 0.456;
  example.verified = true;
  example.game_label = "Marrowby, <b>Silas - Dunnockby, Pell, Club Open, round 3";
  habit.examples = {example};
  habit.puzzles = {"g3-m50w"};
  habit.years = {{2024, 2024, {9, 120}}, {2025, 2026, {20, 198}}};
  all.habits = {habit};
  habits::Habit unsure = habit;
  unsure.words = "by overlooking a threat that was already there";
  unsure.is_flaw = true;
  unsure.more_games = 75;
  all.unsure = {unsure};
  return all;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// Rows joined again, to look for sentences that were broken.
std::string unwrapped(const std::string& text) {
  std::string one;
  for (const std::string_view field : base::fields(text)) one.append(field).append(" ");
  return one;
}

}  // namespace

TEST_CASE("a habit is one sentence with both rates, examples and puzzles") {
  const std::string rows = report::habits_text(some_habits());
  for (const std::string_view row : base::split(rows, '\n')) {
    CHECK(base::character_count(row) <= 100);
  }
  const std::string text = unwrapped(rows);
  CHECK(holds(text, "In 120 games Marrowby, <b>Silas had 4,400 decisions"));
  CHECK(holds(text,
              "More errors in rook endings: 9.1 % of 318 decisions (95 %: 6.4 to 12.8 %), the "
              "opponents in the same games 4.2 % of 309."));
  CHECK(holds(text, "Over the years: 2024 7.5 %, 2025-2026 10.1 %."));
  CHECK(holds(text, "50. f4 cost 46 %; better was 50. Rxa7."));
  CHECK(holds(text, "Puzzles of this kind: g3-m50w."));
  CHECK(holds(text, "About 75 more games would tell."));
}

namespace {

habits::Habits expected_habits() {
  habits::Habits all = some_habits();
  all.measure = habits::Measure::expectation;
  all.field.clear();
  all.expectation = habits::Expectation{.errors = 252.4,
                                        .rating = 1905,
                                        .ratio = 310 / 252.4,
                                        .interval = {1.08, 1.4},
                                        .estimate = 1720,
                                        .low = 1600,
                                        .high = 1840};
  all.habits[0].expected = 14.6;
  all.habits[0].multiple = base::Interval{1.31, 3.02};
  all.unsure[0].expected = 21.04;
  all.strengths = all.habits;
  all.strengths[0].player = {5, 318};
  all.strengths[0].multiple.reset();
  return all;
}

}  // namespace

TEST_CASE("against what is to be expected a habit is told in numbers of errors") {
  const std::string text = unwrapped(report::habits_text(expected_habits()));
  CHECK(holds(text,
              "Of players of the same rating (1905 on average) 252 errors were to be expected in "
              "these positions; there were 310, 1.23 times as many (95 %: 1.08 to 1.40). Players "
              "who make so many are rated about 1720 (95 %: 1600 or less to 1840): an estimate "
              "from moves (after Regan and Haworth, 2011), no rating."));
  CHECK(holds(text, "held against the player's own level."));
  CHECK(holds(text, "WHERE MORE GOES WRONG THAN IS TO BE EXPECTED"));
  CHECK(holds(text,
              "More errors in rook endings: 29 in 318 decisions, where 14.6 were to be expected at "
              "the player's level, 1.99 times as many (95 %: 1.31 to 3.02)."));
  CHECK(holds(text, "WHERE LESS GOES WRONG THAN IS TO BE EXPECTED"));
  CHECK(holds(text,
              "Fewer errors in rook endings: 5 in 318 decisions, where 14.6 were to be expected "
              "at the player's level, 0.34 times as many."));
  CHECK_FALSE(holds(text, "opponents"));
  CHECK_FALSE(holds(text, "of 0."));
}

TEST_CASE("a rating from moves says what it does not know") {
  habits::Habits all = expected_habits();
  all.expectation->unrated = true;
  all.expectation->estimate = 2800;
  all.expectation->low = 2650;
  all.expectation->high = 2800;
  const std::string text = unwrapped(report::habits_text(all));
  CHECK(holds(text, "(1905 on average, taken as 2000 where no rating is given)"));
  CHECK(holds(text, "rated about 2800 or more (95 %: 2650 to 2800 or more)"));
  all.expectation->low = 1600;
  CHECK(holds(unwrapped(report::habits_text(all)),
              "These games are too few to say which rating goes with so many errors."));
  all.expectation.reset();
  CHECK(holds(
      unwrapped(report::habits_text(all)),
      "These games are too few to hold all errors together against what was to be expected."));
  all.measure = habits::Measure::field;
  CHECK_FALSE(holds(unwrapped(report::habits_text(all)), "Of players of the same rating"));
  CHECK_FALSE(holds(unwrapped(report::habits_text(all)), "to hold all errors together"));
}

namespace {

base::Json json_of(habits::Habits habits) {
  report::PlayerPage page{.names = {habits.player}, .version = "0.0.0-test"};
  page.habits = std::move(habits);
  return base::parse_json(report::player_json(page)).value();
}

}  // namespace

TEST_CASE("what was to be expected stands in the object as it was counted") {
  const base::Json json = json_of(expected_habits());
  CHECK(*json.find("measure")->text() == "expectation");
  const base::Json& all = *json.find("expectation");
  CHECK(all.find("errors")->real() == Approx(252.4));
  CHECK(all.find("rating")->integer() == 1905);
  CHECK(all.find("unrated")->boolean() == false);
  CHECK(all.find("ratio")->real() == Approx(310 / 252.4));
  CHECK(all.find("low")->real() == Approx(1.08));
  CHECK(all.find("high")->real() == Approx(1.4));
  CHECK(all.find("estimate")->integer() == 1720);
  CHECK(all.find("estimate_low")->integer() == 1600);
  CHECK(all.find("estimate_high")->integer() == 1840);
  const base::Json& habit = json.find("habits")->elements()->front();
  CHECK(habit.find("expected")->real() == Approx(14.6));
  CHECK(habit.find("multiple")->find("low")->real() == Approx(1.31));
  CHECK(json.find("strengths")->elements()->front().find("multiple") == nullptr);
  const base::Json field = json_of(some_habits());
  CHECK(*field.find("measure")->text() == "field");
  CHECK(field.find("expectation")->is_null());
  CHECK(field.find("habits")->elements()->front().find("expected") == nullptr);
}

TEST_CASE("for somebody who prepares to play a player the same figures stand under other titles") {
  for (auto [all, others] :
       {std::pair{expected_habits(), "PLAYERS LIKE THEM"}, std::pair{some_habits(), "OTHERS"}}) {
    all.strengths = all.habits;
    const std::string own = unwrapped(report::habits_text(all));
    const std::string opponent = unwrapped(report::habits_text(all, "Marrowby, Silas"));
    CHECK(holds(opponent, std::string("WHERE MARROWBY, SILAS ERRS MORE THAN ") + others));
    CHECK(holds(opponent, std::string("WHERE MARROWBY, SILAS ERRS LESS THAN ") + others));
    CHECK(holds(own, "WHERE MORE GOES WRONG THAN "));
    CHECK_FALSE(holds(opponent, "GOES WRONG"));
    CHECK(holds(opponent, "NOT ENOUGH GAMES TO TELL") == holds(own, "NOT ENOUGH GAMES TO TELL"));
    // Each sentence that has a figure is the same.
    const std::string text = report::habits_text(all);
    for (const std::string_view row : base::split(text, '\n')) {
      if (row.find(" % ") == std::string_view::npos) continue;
      CHECK(holds(report::habits_text(all, "Marrowby, Silas"), std::string(row)));
    }
  }
}

TEST_CASE("a title with a long name keeps to the page") {
  const std::string name(120, 'x');
  const std::string text = report::habits_text(expected_habits(), name);
  for (const std::string_view row : base::split(text, '\n')) {
    CHECK(base::character_count(row) <= 80);
  }
}

TEST_CASE("without a habit it is said what it would take") {
  habits::Habits all = some_habits();
  all.habits.clear();
  CHECK(holds(unwrapped(report::habits_text(all)), "No habit can be told from these games"));
  CHECK_FALSE(holds(unwrapped(report::habits_text(all)), "takes about"));
  all.games_for_double = 300;
  CHECK(holds(unwrapped(report::habits_text(all)), "takes about 300 games; these are 120."));
  all.circumstances = 0;
  CHECK(holds(unwrapped(report::habits_text(all)), "too few to tell any habit"));
}

TEST_CASE("the reports of a player have a section on habits, others have none") {
  FakeCollection collection = fake_collection();
  CHECK_FALSE(holds(written("text", collection), "WHAT KEEPS COMING BACK"));
  CHECK_FALSE(holds(written("html", collection), "id=\"habits\""));
  collection.habits_ = some_habits();
  CHECK(holds(written("text", collection), "WHAT KEEPS COMING BACK"));
  const std::string html = written("html", collection);
  CHECK(holds(html, "<section id=\"habits\">"));
  CHECK(holds(html, "<a href=\"#habits\">"));
  CHECK(holds(html, "Marrowby, &lt;b&gt;Silas"));
  CHECK_FALSE(holds(html, "<b>Silas"));
}
