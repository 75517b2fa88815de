// What player.html holds, for programs: the habits (habits_json.cpp) and, as "season", the lists of
// single decisions with the same entries in the same order, the clock and the periods. Names of
// fields are those of moments.jsonl where both tell the same.
#include <cmath>

#include "kairos/base/json.hpp"
#include "kairos/report/player.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "habits_json.hpp"
#include "labels.hpp"
#include "player_prose.hpp"

namespace kairos::report {

namespace {

using base::Json;
using habits::Season;
using rules::Position;

Json number_or_null(int number, bool is_known) {
  return is_known ? Json(number) : Json();
}

Json san_or_null(const Position& position, rules::Move move) {
  return move ? Json(rules::to_san(position, move)) : Json();
}

// The game, the place in it, and the clock: of any decision.
Json place_json(const study::Study& study, int ply, const Position& position,
                const MoveTimes& times) {
  const int rating = study::elo_of(study.facts, position.side_to_move());
  Json json = Json::object();
  json.add("game", study::label_of(study.facts)).add("date", study.facts.date);
  json.add("result", study.facts.result).add("ply", ply);
  json.add("move_number", position.fullmove_number());
  json.add("side", machine_name(position.side_to_move()));
  json.add("rating", number_or_null(rating, rating > 0)).add("fen", rules::to_fen(position));
  json.add("clock", number_or_null(times.left, times.left >= 0));
  json.add("time_spent", number_or_null(times.spent, times.spent >= 0));
  return json;
}

// A game ended early cost the one who ended it, whoever was to move.
double cost_of(const study::Moment& m) {
  if (m.kind != study::Kind::ended_early) return m.cost();
  return std::abs(m.best_expectation() - m.played_expectation());
}

void add_trap(Json& json, const study::Moment& m) {
  const bool is_trap = m.kind == study::Kind::trap;
  const double cost = m.best_expectation() - study::expectation(m.tempting_score);
  json.add("tempting", is_trap ? san_or_null(m.position, m.tempting) : Json());
  json.add("tempting_cost", is_trap ? Json(cost) : Json());
}

// The last place where it was won, and what a loss was saved with.
void add_turn(Json& json, const study::Study& study, const habits::Entry& entry) {
  json.add("won_ply", number_or_null(entry.won_ply, entry.won_ply >= 0));
  json.add("answer_ply", number_or_null(entry.answer_ply, entry.answer_ply >= 0));
  Json answer;
  if (entry.answer_ply >= 0) {
    const auto ply = static_cast<std::size_t>(entry.answer_ply);
    answer = rules::to_san(study::position_after(study, ply), study.moves[ply]);
  }
  json.add("answer", std::move(answer));
}

Json entry_json(const Season& season, const habits::Entry& entry, bool traps) {
  const study::Study& study = season.studies[entry.study];
  const TurningPoint point = shown_point(study, entry, traps);
  const study::Moment& m = point.lead();
  Json json = place_json(study, entry.ply, m.position, times_of(study, m));
  json.add("kind", machine_name(m.kind)).add("played", san_or_null(m.position, m.played));
  json.add("best", san_or_null(m.position, m.best)).add("cost", cost_of(m));
  json.add("find_rate", m.find_rate >= 0
                            ? Json(static_cast<double>(m.find_rate) / study::find_rate_of)
                            : Json());
  add_trap(json, m);
  add_turn(json, study, entry);
  json.add("account", text_of(study, point));
  return json;
}

// No moment tells of it: the board and the survey do.
Json think_json(const Season& season, const habits::Entry& entry) {
  const study::Study& study = season.studies[entry.study];
  const auto ply = static_cast<std::size_t>(entry.ply);
  const Position position = study::position_after(study, ply);
  const study::Note& note = study.notes[ply];
  Json json =
      place_json(study, entry.ply, position, {note.clock_seconds, seconds_spent(study, ply)});
  json.add("played", rules::to_san(position, study.moves[ply]));
  json.add("best", rules::to_san(position, note.lines.front().moves.front()));
  return json;
}

template <typename EntryJson>
Json list_json(const habits::List& list, const EntryJson& json_of_entry) {
  Json entries = Json::array();
  for (const habits::Entry& entry : list.entries) entries.push(json_of_entry(entry));
  Json json = Json::object();
  json.add("all", list.all).add("entries", std::move(entries));
  return json;
}

void add_lists(Json& json, const Season& s) {
  const auto add = [&](std::string_view name, const habits::List& list) {
    const bool traps = &list == &s.traps;
    json.add(name, list_json(list, [&s, traps](const habits::Entry& entry) {
               return entry_json(s, entry, traps);
             }));
  };
  add("costliest", s.costliest);
  add("finds", s.finds);
  add("traps", s.traps);
  add("wins_let_slip", s.wins_let_slip);
  add("losses_saved", s.losses_saved);
  add("quick_errors", s.quick_errors);
  json.add("long_thinks", list_json(s.long_thinks, [&s](const habits::Entry& entry) {
             return think_json(s, entry);
           }));
}

Json bands_json(const std::vector<habits::TimeBand>& bands) {
  Json list = Json::array();
  for (const habits::TimeBand& band : bands) {
    Json json = Json::object();
    json.add("least", band.least).add("below", number_or_null(band.below, band.below > 0));
    json.add("all", rate_json(band.all())).add("one_good", rate_json(band.one_good));
    list.push(json.add("several_good", rate_json(band.several_good)));
  }
  return list;
}

Json clock_json(const habits::Clock& clock) {
  Json json = Json::object();
  json.add("games", clock.games).add("by_left", bands_json(clock.by_left));
  json.add("by_spent", bands_json(clock.by_spent));
  return json;
}

Json half_json(int half) {
  if (half == 0) return {};
  Json json = Json::object();
  json.add("year", half / 2).add("half", half % 2 + 1);
  return json;
}

Json period_json(const habits::Period& p) {
  const base::Interval interval = p.interval();
  Json json = Json::object();
  json.add("period", period_words(p)).add("event", p.event);
  json.add("first", half_json(p.first_half)).add("last", half_json(p.last_half));
  json.add("games", p.games).add("with_result", p.with_result);
  json.add("points", static_cast<double>(p.half_points) / 2).add("swings", p.swings);
  json.add("games_with_swing", p.games_with_swing);
  json.add("low", interval.low).add("high", interval.high);
  return json;
}

Json season_json(const Season& s) {
  Json json = Json::object(), periods = Json::array();
  json.add("games", s.games).add("won", s.won).add("drawn", s.drawn).add("lost", s.lost);
  json.add("open_games", s.open_games).add("open_places", s.open_places);
  add_lists(json, s);
  json.add("clock", clock_json(s.clock));
  for (const habits::Period& period : s.periods) periods.push(period_json(period));
  json.add("periods", std::move(periods));
  return json;
}

Json training_json(const PlayerPage& page) {
  Json json = Json::object(), ids = Json::array();
  for (const puzzle::Puzzle& puzzle : page.training) ids.push(puzzle::id_of(puzzle));
  json.add("of_habits", page.training_of_habits).add("missed", page.training_missed);
  json.add("puzzles", std::move(ids));
  return json;
}

}  // namespace

std::string player_json(const PlayerPage& page) {
  Json json = habits_json(page.habits), names = Json::array(), efforts = Json::array();
  for (const std::string& name : page.names) names.push(name);
  for (const std::string& effort : page.efforts) efforts.push(effort);
  json.add("names", std::move(names)).add("efforts", std::move(efforts));
  json.add("season", season_json(page.season)).add("training", training_json(page));
  return base::to_json(json);
}

}  // namespace kairos::report
