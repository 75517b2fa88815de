#include "overview_prose.hpp"

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"

#include "habit_prose.hpp"
#include "labels.hpp"
#include "player_prose.hpp"

namespace kairos::report {

namespace {

bool is_by_field(const habits::Habits& h) {
  return h.measure == habits::Measure::field;
}

bool is_by_field(const Overview& overview) {
  return !overview.rows.empty() && is_by_field(overview.rows.front().habits);
}

std::string habits_words(const habits::Habits& h) {
  if (h.circumstances == 0) return "too few games";
  std::vector<std::string> words;
  for (const habits::Habit& habit : h.habits) words.push_back(base::to_utf8(habit.words));
  return words.empty() ? "none" : base::join(words, "; ");
}

void compare_with_field(OverviewCells& cells, const habits::Habits& h) {
  const base::Interval interval = h.player_rate.interval();
  cells.held_against = rate_text(h.field_rate.share());
  cells.compared = rate_text(h.player_rate.share()) + " (" + base::fixed(interval.low * 100, 1) +
                   " to " + base::fixed(interval.high * 100, 1) + ")";
}

void compare_with_expected(OverviewCells& cells, const habits::Habits& h) {
  cells.held_against = "-";
  cells.compared = "too few games";
  if (!h.expectation) return;
  const habits::Expectation& e = *h.expectation;
  cells.errors = base::fixed(e.errors * e.ratio, 0);
  cells.held_against = base::fixed(e.errors, 0);
  cells.compared = base::fixed(e.ratio, 2) + " (" + times_interval(e.interval) + ")";
}

}  // namespace

OverviewRow overview_row(const PlayerPage& page, std::string folder) {
  return {heading_name(page), std::move(folder), page.season.games, page.habits};
}

OverviewCells cells_of(const OverviewRow& row) {
  const habits::Habits& h = row.habits;
  OverviewCells cells;
  cells.name = row.name;
  cells.games = base::grouped(row.games);
  cells.decisions = base::grouped(h.player_rate.decisions);
  cells.errors = base::grouped(h.player_rate.errors);
  is_by_field(h) ? compare_with_field(cells, h) : compare_with_expected(cells, h);
  if (h.expectation && tells_rating(*h.expectation)) {
    const habits::Expectation& e = *h.expectation;
    cells.rating =
        rating_words(e.estimate) + " (" + rating_words(e.low) + " to " + rating_words(e.high) + ")";
  }
  cells.habits = habits_words(h);
  return cells;
}

OverviewHeads heads_of(const Overview& overview) {
  if (is_by_field(overview)) return {"Field", "Rate (95 %)"};
  return {"Expected", "Times as many (95 %)"};
}

std::string overview_title(const Overview& overview) {
  return base::counted(overview.rows.size(), "player");
}

std::string overview_meaning(const Overview& overview) {
  if (overview.rows.empty()) return "";
  const habits::Habits& h = overview.rows.front().habits;
  std::string text =
      "A decision is a move with a choice in a position that was not decided, an error one that "
      "cost " +
      percent(h.error_cost) + " of the expected score or more. ";
  text += is_by_field(overview)
              ? "Beside the errors stand the rate of " + base::isolated(h.field) +
                    " and the player's own, each of all decisions. "
              : std::string(
                    "Expected is how many errors players of the same rating would make in the "
                    "same positions. ");
  text += std::string(rating_title) +
          ": of players who make so many errors there, an estimate after Regan and Haworth (2011) "
          "and no rating. Intervals are of 95 %; where those of two players overlap, chance may be "
          "all that differs. " +
          std::string(more_wrong_title) + ": the habits named, by the tests that ";
  return text + (overview.rows.size() == 1 ? "the player's page tells of."
                                           : "each player's page tells of.");
}

std::string left_out_words(const Overview& overview) {
  if (overview.left_out.empty()) return "";
  std::vector<std::string> names;
  for (const std::string& name : overview.left_out) names.push_back(player_text(name));
  return "Left out, since the name means nobody in these games or several people: " +
         base::join(names, "; ") + ".";
}

std::string unrated_words(const Overview& overview) {
  std::vector<std::string> names;
  for (const OverviewRow& row : overview.rows) {
    const auto& expectation = row.habits.expectation;
    if (expectation && expectation->unrated) names.push_back(row.name);
  }
  if (names.empty()) return "";
  return "Where a game gives no rating of these players, they are taken as " +
         std::to_string(study::unrated) + ": " + base::join(names, "; ") + ".";
}

}  // namespace kairos::report
