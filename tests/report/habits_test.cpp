// The habits of a player in the reports: what is said, how it fits, and that names stay text.
#include "kairos/report/habits.hpp"

#include <catch2/catch.hpp>

#include "kairos/base/text.hpp"
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
