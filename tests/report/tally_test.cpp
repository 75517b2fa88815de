// How the people did against what was to be expected of players of a rating.
#include "kairos/report/tally.hpp"

#include <catch2/catch.hpp>

#include "kairos/base/json.hpp"

#include "support/games.hpp"

using namespace kairos;

namespace {

// A back rank (common practice); the figures are invented.
puzzle::Exercise back_rank(puzzle::Rates rates) {
  puzzle::Exercise e;
  e.id = "b1";
  e.puzzle.position = support::position("6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1");
  e.puzzle.line = support::line(e.puzzle.position, "Ra8#");
  e.puzzle.find_rates = rates;
  e.keys = {e.puzzle.line.front()};
  return e;
}

audience::Tally sixty(const puzzle::Exercise& exercise) {
  audience::Tally tally;
  tally.counts.lines = 70;
  tally.counts.people = 60;
  tally.rows = {{support::move(exercise.puzzle.position, "h3"), 36, {"anna", ""}, false, {}},
                {exercise.keys.front(), 24, {"bert", ""}, true, {}}};
  tally.with_key = {{{"bert", ""}}, 24};
  return tally;
}

std::string text_at(puzzle::Rates rates, int level, bool with_verdicts = true) {
  const puzzle::Exercise exercise = back_rank(rates);
  return report::tally_text(exercise, sixty(exercise), {.reveals = with_verdicts, .level = level});
}

constexpr puzzle::Rates rates = {1200, 3100, 5500, 7000};

}  // namespace

TEST_CASE("the table ends with how the people did against players of the rating") {
  CHECK(text_at(rates, 2000)
            .ends_with("\n24 of 60 found it (40 %); of players rated 2000 about 31 % would\n"));
  CHECK(text_at(rates, 2200).ends_with("; of players rated 2200 about 43 % would\n"));
  // Of others nothing is known: the nearest are named, not those asked for.
  CHECK(text_at(rates, 1000).ends_with("; of players rated 1600 about 12 % would\n"));
  CHECK(text_at(rates, 3500).ends_with("; of players rated 2800 about 70 % would\n"));
}

TEST_CASE("nothing is compared without find rates, without people, before the verdicts") {
  const auto compares = [](const std::string& text) {
    return text.find("found it") != std::string::npos;
  };
  CHECK(compares(text_at(rates, 2000)));
  CHECK_FALSE(compares(text_at({}, 2000)));
  CHECK_FALSE(compares(text_at(rates, 2000, false)));
  CHECK_FALSE(compares(report::tally_text(back_rank(rates), {}, {})));
}

TEST_CASE("the object of a tally has what was to be expected where the exercise says so") {
  const puzzle::Exercise exercise = back_rank(rates);
  const auto json = base::parse_json(report::tally_json(exercise, sixty(exercise), 1000));
  REQUIRE(json);
  CHECK(json->find("level")->integer() == 1600);
  CHECK(json->find("expected")->real().value() == Approx(0.12));
  const auto without = base::parse_json(report::tally_json(back_rank({}), sixty(exercise), 2000));
  REQUIRE(without);
  CHECK(without->find("expected") == nullptr);
  CHECK(without->find("level") == nullptr);
}
