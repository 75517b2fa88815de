// The count on a page: what it gives away, and what names do to it.
#include <catch2/catch.hpp>

#include "kairos/report/tally.hpp"

#include "support/games.hpp"
#include "support/markup.hpp"

using namespace kairos;
using report::EveningView;
using report::TallyView;

namespace {

// Either rook may give mate on the back rank, so one position serves for two questions.
puzzle::Exercise question(const char* key) {
  puzzle::Exercise e;
  e.id = std::string("id-") + key;
  e.puzzle.position = support::position("6k1/5ppp/8/8/8/8/5PPP/R2R2K1 w - - 0 1");
  e.puzzle.line = support::line(e.puzzle.position, key);
  e.keys = {e.puzzle.line.front()};
  return e;
}

audience::Tally counted(const puzzle::Exercise& e) {
  audience::Tally tally;
  tally.counts.people = 10;
  for (const char* san : {"h3", "Ra8+", "Rd8#"}) {
    if (san == std::string_view("Rd8#")) san = "Rd8+";
    const rules::Move move = support::move(e.puzzle.position, san);
    tally.rows.push_back({move, move == e.keys.front() ? 6U : 2U, {"zoe", ""}, e.is_key(move), {}});
  }
  std::ranges::stable_sort(tally.rows, std::greater{}, &audience::Tally::Row::count);
  return tally;
}

std::string page(const puzzle::Exercise& e, const audience::Tally& tally, bool reveals,
                 const EveningView& evening = {}) {
  return report::tally_page(e, tally, {.reveals = reveals}, evening, "1.0");
}

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("before it reveals a page is the same to the byte whatever is right") {
  puzzle::Exercise one = question("Ra8#"), other = question("Rd8#");
  other.themes = {"sacrifice"};
  other.puzzle.find_rates = {1200, 3100, 5500, 7000};
  other.puzzle.tries = {{support::move(other.puzzle.position, "h3"), {}, {}, {}}};
  audience::Tally tally = counted(one);
  for (audience::Tally::Row& row : tally.rows) row.count = 3;
  tally.with_key = {{{"anna", "12:00"}}, 3};
  audience::Tally same = tally;
  for (audience::Tally::Row& row : same.rows) row.is_key = other.is_key(row.move);
  same.with_key = {{{"bert", ""}}, 3};
  same.with_solution = {{{"bert", ""}}, 1};
  const EveningView evening{.number = 2, .of = 5, .places = {}};
  CHECK(page(one, tally, false, evening) == page(other, same, false, evening));
  CHECK(page(one, tally, true, evening) != page(other, same, true, evening));
  CHECK(has(page(one, tally, false, evening), "Question 2 of 5, 10 answers"));
}

TEST_CASE("when it reveals, the key, the first three, what was expected and the points are told") {
  puzzle::Exercise e = question("Ra8#");
  e.puzzle.find_rates = {1200, 3100, 5500, 7000};
  audience::Tally tally = counted(e);
  tally.with_key = {{{"anna", "12:00"}, {"bert", ""}, {"carl", ""}, {"dora", ""}}, 6};
  const EveningView evening{
      .number = 1, .of = 3, .places = {{1, 3, {"anna", "bert"}}, {3, 1, {"carl"}}}};
  const std::string html = page(e, tally, true, evening);
  CHECK(has(html, "<li class=\"best\"><span class=\"move\">Ra8#</span>"));
  CHECK(has(html, "style=\"width:60%\""));
  CHECK(has(html, "60 % (6)"));
  CHECK(has(html, "First with it: anna (12:00), bert, carl and 3 more"));
  CHECK_FALSE(has(html, "dora"));
  CHECK(has(html, "6 of 10 found it (60 %); of players rated 2000 about 31 % would"));
  CHECK(has(html, "<li value=\"1\">anna, bert: 3 points</li>\n<li value=\"3\">carl: 1 point</li>"));
}

TEST_CASE("a page loads itself again and nothing else, and is whole markup whatever names hold") {
  puzzle::Exercise e = question("Ra8#");
  audience::Tally tally = counted(e);
  const std::string hostile[] = {"<script>alert(1)</script>",
                                 "\"><img src=x>",
                                 "&lt;",
                                 "\342\200\256",
                                 "\327\223\327\225\327\223",
                                 std::string(500, 'W'),
                                 "</html>",
                                 "\033[2J",
                                 "\377\376"};
  for (const std::string& name : hostile) {
    INFO(name);
    tally.with_key = {{{name, name}}, 1};
    const EveningView evening{.number = 1, .of = 2, .places = {{1, 2, {name, name}}}};
    const std::string html = page(e, tally, true, evening);
    CHECK(html.starts_with("<!DOCTYPE html>"));
    CHECK(html.ends_with("</html>\n"));
    test::check_closed(html, {"!DOCTYPE", "meta", "img"});
    for (const test::Tag& tag : test::tags_of(html)) {
      CHECK(tag.name != "script");
      CHECK(tag.name != "img");
      CHECK(tag.name != "link");
    }
    CHECK(test::values_of(html, "src").empty());
    CHECK(has(html, "<meta http-equiv=\"refresh\" content=\"1\">"));
    CHECK_FALSE(has(html, std::string(100, 'W')));
    CHECK_FALSE(has(html, "\033"));
  }
}

TEST_CASE("nobody at all has a page too") {
  const puzzle::Exercise e = question("Ra8#");
  for (const bool reveals : {false, true}) {
    const std::string html = page(e, {}, reveals);
    CHECK(has(html, "0 answers"));
    CHECK(has(html, "Nobody has found it.") == reveals);
  }
}

TEST_CASE("the page writes moves in the letters asked for, and leaves names alone") {
  const puzzle::Exercise e = question("Ra8#");
  audience::Tally tally = counted(e);
  tally.with_key = {{{"Ra8", ""}}, 6};
  const std::string html =
      report::tally_page(e, tally, {.reveals = true, .letters = rules::Letters::german}, {}, "1.0");
  CHECK(has(html, "<span class=\"move\">Ta8#</span>"));
  CHECK(has(html, "First with it: Ra8 and 5 more"));
}

TEST_CASE("the page says how many have the whole solution, where more than a move is asked") {
  puzzle::Exercise e = question("Ra8#");
  audience::Tally tally = counted(e);
  tally.with_key = {{{"anna", ""}}, 6};
  CHECK_FALSE(has(page(e, tally, true), "whole solution"));
  e.puzzle.position = support::position("7k/8/8/8/8/8/R7/1R4K1 w - - 0 1");
  e.puzzle.line = support::line(e.puzzle.position, "Rb7 Kg8 Ra8#");
  e.puzzle.asked = 3;
  tally.rows.clear();
  CHECK(has(page(e, tally, true), "Nobody has the whole solution."));
  tally.with_solution = {{{"anna", ""}}, 1};
  CHECK(has(page(e, tally, true), "The whole solution: 1 person<"));
}
