// players.html and players.txt: approved bytes, and what must hold of any overview.
#include "kairos/report/overview.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "kairos/base/text.hpp"

#include "support/golden.hpp"
#include "support/markup.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

// Figures are invented.
report::OverviewRow row_of(const std::string& name, const std::string& folder) {
  report::OverviewRow row{.name = name, .folder = folder, .games = 24, .habits = {}};
  habits::Habits& h = row.habits;
  h.measure = habits::Measure::expectation;
  h.games = 24;
  h.player_rate = {75, 1'210};
  return row;
}

report::Overview sample() {
  report::OverviewRow known = row_of("Marrowby, \"Si\" <b>Silas", "Marrowby-Si-b-Silas");
  known.habits.circumstances = 31;
  known.habits.expectation = habits::Expectation{.errors = 60.4,
                                                 .rating = 1905,
                                                 .ratio = 75 / 60.4,
                                                 .interval = {1.02, 1.51},
                                                 .estimate = 1740,
                                                 .low = 1600,
                                                 .high = 1880};
  known.habits.habits = {{.words = "in rook endings", .player = {9, 40}, .field = {}},
                         {.words = "when moving a knight", .player = {20, 160}, .field = {}}};
  report::OverviewRow wide = row_of("Quillfeather, Ada", "Quillfeather-Ada");
  wide.habits.circumstances = 4;
  wide.habits.expectation = habits::Expectation{.errors = 70.6,
                                                .rating = 2000,
                                                .unrated = true,
                                                .ratio = 75 / 70.6,
                                                .interval = {0.4, 2.8},
                                                .estimate = 2000,
                                                .low = 1600,
                                                .high = 2800};
  report::OverviewRow few = row_of("A name that is longer than its column, Bartholomew", "Few");
  few.games = 1;
  return {.rows = {known, wide, few},
          .left_out = {"Nobody & Sons", "Birch"},
          .efforts = {"light: 20,000 nodes a position, 150,000 a moment"},
          .version = "0.0.0-test"};
}

report::Overview by_field() {
  report::Overview overview = sample();
  for (report::OverviewRow& row : overview.rows) {
    row.habits.measure = habits::Measure::field;
    row.habits.field = "the opponents in the same games";
    row.habits.field_rate = {50, 1'000};
  }
  return overview;
}

std::string text_of(const report::Overview& overview) {
  base::StringSink sink;
  REQUIRE(report::write_overview_text(overview, sink).ok());
  return sink.text;
}

std::string html_of(const report::Overview& overview) {
  base::StringSink sink;
  REQUIRE(report::write_overview_html(overview, sink).ok());
  return sink.text;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("an overview has the approved bytes") {
  check_golden("overview", "players.txt", text_of(sample()));
  check_golden("overview", "players.html", html_of(sample()));
}

TEST_CASE("an overview's text keeps to 80 columns") {
  for (const report::Overview& overview : {sample(), by_field()}) {
    const std::string text = text_of(overview);
    for (const std::string_view row : base::split(text, '\n')) {
      INFO(row);
      CHECK(base::character_count(row) <= 80);
      CHECK_FALSE(row.ends_with(' '));
    }
  }
}

TEST_CASE("each row has its figures, its habits and the way to the page") {
  const std::string text = text_of(sample());
  CHECK(holds(text, "24      1,210      75        60  1.24 (1.02 to 1.51)\n"));
  CHECK(holds(text,
              "    Rating from moves: 1740 (1600 or less to 1880). More goes wrong: in rook\n"
              "    endings; when moving a knight.\n    Marrowby-Si-b-Silas/player.txt\n"));
  // An interval from end to end tells nothing.
  CHECK(holds(text, "1.06 (0.40 to 2.80)\n    More goes wrong: none.\n"));
  CHECK(holds(text, "75         -        too few games\n    More goes wrong: too few games.\n"));
  const std::string html = html_of(sample());
  CHECK(holds(html, "<a href=\"Quillfeather-Ada/player.html\">Quillfeather, Ada</a>"));
}

TEST_CASE("measured by the field a row has both rates") {
  const std::string text = text_of(by_field());
  CHECK(holds(text, "Errors     Field          Rate (95 %)\n"));
  // E. B. Wilson's interval of 75 in 1,210.
  CHECK(holds(text, "75     5.0 %   6.2 % (5.0 to 7.7)\n"));
  CHECK_FALSE(holds(text, "Expected"));
}

TEST_CASE("who could not be told is named") {
  const std::string text = text_of(sample());
  CHECK(holds(text, "several people: Nobody\n  & Sons; Birch.\n"));
  report::Overview all = sample();
  all.left_out.clear();
  CHECK_FALSE(holds(text_of(all), "Left out"));
  CHECK_FALSE(holds(html_of(all), "Left out"));
}

TEST_CASE("whose rating is not given is told") {
  const std::string told = "of these players, they are taken as 2000:\n  Quillfeather, Ada.\n";
  CHECK(holds(text_of(sample()), told));
  report::Overview rated = sample();
  rated.rows[1].habits.expectation->unrated = false;
  CHECK_FALSE(holds(text_of(rated), "are taken as"));
  CHECK_FALSE(holds(html_of(rated), "are taken as"));
}

TEST_CASE("a name that is longer than its column stands above its figures") {
  CHECK(holds(text_of(sample()), "\nA name that is longer than its column, Bartholomew\n        "));
}

TEST_CASE("every element of an overview is closed, and names are text") {
  const std::string html = html_of(sample());
  check_closed(html, {"!DOCTYPE", "meta"});
  CHECK(values_of(html, "href").size() == 3);
  CHECK_FALSE(holds(html, "<b>"));
  CHECK_FALSE(holds(html, "& Sons"));
  CHECK_FALSE(holds(html, "<script"));
}

TEST_CASE("an overview is known again, and a player's text is none") {
  CHECK(report::is_overview_text(text_of(sample())));
  report::Overview one = sample();
  one.rows.resize(1);
  CHECK(report::is_overview_text(text_of(one)));
  CHECK_FALSE(report::is_overview_text("KAIROS 1.0: Marrowby, Silas\n\n  24 games"));
  CHECK_FALSE(report::is_overview_text("KAIROS 1.0: players\n\n"));
  CHECK_FALSE(report::is_overview_text("24 players\n"));
  CHECK_FALSE(report::is_overview_text(""));
}
