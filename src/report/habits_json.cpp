#include "habits_json.hpp"

#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

namespace kairos::report {

namespace {

base::Json json_of(const base::Interval& interval) {
  base::Json json = base::Json::object();
  json.add("low", interval.low).add("high", interval.high);
  return json;
}

base::Json json_of(const habits::Expectation& e) {
  base::Json json = base::Json::object();
  json.add("errors", e.errors).add("rating", e.rating).add("unrated", e.unrated);
  json.add("ratio", e.ratio).add("low", e.interval.low).add("high", e.interval.high);
  json.add("estimate", e.estimate).add("estimate_low", e.low).add("estimate_high", e.high);
  return json;
}

base::Json json_of(const habits::Example& e) {
  base::Json json = base::Json::object();
  json.add("game", e.game_label).add("ply", e.place.ply).add("fen", rules::to_fen(e.position));
  json.add("played", rules::to_san(e.position, e.played));
  json.add("best", rules::to_san(e.position, e.best));
  json.add("cost", e.cost).add("verified", e.verified);
  return json;
}

base::Json json_of(const std::vector<habits::Habit>& habits) {
  base::Json array = base::Json::array();
  for (const habits::Habit& habit : habits) {
    base::Json examples = base::Json::array(), puzzles = base::Json::array(),
               years = base::Json::array();
    for (const habits::Example& example : habit.examples) examples.push(json_of(example));
    for (const std::string& puzzle : habit.puzzles) puzzles.push(puzzle);
    for (const habits::Years& span : habit.years) {
      base::Json json = base::Json::object();
      json.add("first", span.first).add("last", span.last).add("rate", rate_json(span.rate));
      years.push(std::move(json));
    }
    base::Json json = base::Json::object();
    json.add("habit", habit.words).add("kind_of_error", habit.is_flaw);
    json.add("player", rate_json(habit.player)).add("field", rate_json(habit.field));
    if (habit.expected > 0) json.add("expected", habit.expected);
    if (habit.multiple) json.add("multiple", json_of(*habit.multiple));
    json.add("adjusted_p", habit.adjusted).add("shrunk_ratio", habit.times);
    json.add("more_games", habit.more_games).add("years", std::move(years));
    json.add("examples", std::move(examples)).add("puzzles", std::move(puzzles));
    array.push(std::move(json));
  }
  return array;
}

}  // namespace

base::Json rate_json(const habits::Rate& rate) {
  const base::Interval interval = rate.interval();
  base::Json json = base::Json::object();
  json.add("errors", rate.errors).add("decisions", rate.decisions).add("rate", rate.share());
  json.add("low", interval.low).add("high", interval.high);
  return json;
}

base::Json habits_json(const habits::Habits& h) {
  base::Json json = base::Json::object();
  json.add("version", 1).add("player", h.player).add("field", h.field).add("games", h.games);
  json.add("measure", h.measure == habits::Measure::field ? "field" : "expectation");
  json.add("expectation", h.expectation ? json_of(*h.expectation) : base::Json());
  json.add("circumstances", h.circumstances);
  json.add("all_player", rate_json(h.player_rate)).add("all_field", rate_json(h.field_rate));
  json.add("habits", json_of(h.habits)).add("strengths", json_of(h.strengths));
  json.add("unsure", json_of(h.unsure)).add("games_for_double", h.games_for_double);
  return json;
}

}  // namespace kairos::report
