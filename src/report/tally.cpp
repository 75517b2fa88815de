#include "kairos/report/tally.hpp"

#include <algorithm>

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "tally_words.hpp"

namespace kairos::report {

namespace {

using audience::Person;
using audience::Tally;
using puzzle::Exercise;

constexpr std::size_t shown_names = 5;
constexpr std::size_t shown_refused = 5;
constexpr std::size_t refuting_plies = 6;
constexpr std::size_t shown_of_place = 10;

}  // namespace

// A try has the refutation that came with the puzzle: it was searched longer than is done here.
std::string verdict_of(const puzzle::Exercise& exercise, const audience::Tally::Row& row) {
  if (!row.weighed) return "...";
  const rules::Position& p = exercise.puzzle.position;
  const std::string words = verdict_words(p, *row.weighed);
  if (row.is_key) return "the key: " + words;
  const puzzle::Try* const tried = find_try(exercise.puzzle.tries, row.move);
  if (tried == nullptr) return words;
  const rules::Move reply = tried->refutation.front();
  const bool same = row.weighed->line.size() > 1 && row.weighed->line[1] == reply;
  if (same && !row.weighed->is_good) return words;
  return refuted_words(p, *tried, refuting_plies);
}

namespace {

std::string names_text(const Tally::Right& right, std::size_t most) {
  if (right.count == 0) return "nobody";
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min(most, right.first.size()); ++i) {
    const Person& person = right.first[i];
    names.push_back(person.time.empty() ? person.name : person.name + " (" + person.time + ")");
  }
  std::string text = base::join(names, ", ");
  if (right.count > names.size()) {
    text += " and " + base::grouped(right.count - names.size()) + " more";
  }
  return text;
}

std::string opening(const Exercise& exercise, const Tally::Counts& c) {
  std::string text = exercise.id + ": " + base::counted(c.people, "person", "people") +
                     " answered in " + base::counted(c.lines, "line");
  const auto add = [&text](std::uint64_t count, const char* words) {
    if (count > 0) text += ", " + base::grouped(count) + ' ' + words;
  };
  add(c.refused, "not playable");
  add(c.talk, "without a move");
  add(c.unmeant, "with no move meant");
  add(c.again, "again from the same");
  add(c.changed, "changed");
  add(c.unreadable, "not read");
  add(c.too_many, "from more people than are kept");
  add(c.late, "after the answer was shown");
  return text + "\n\n";
}

std::string refused_text(const std::vector<Tally::Refused>& refused) {
  std::string text;
  for (std::size_t i = 0; i < std::min(shown_refused, refused.size()); ++i) {
    text += "  " + refused[i].text + " (" + base::grouped(refused[i].count) +
            "): " + refused[i].why + "\n";
  }
  if (refused.size() > shown_refused) {
    text += "  and " + base::grouped(refused.size() - shown_refused) + " others\n";
  }
  return text.empty() ? "" : "\nNot playable:\n" + text;
}

}  // namespace

std::string expected_text(const puzzle::Exercise& exercise, const audience::Tally& tally,
                          int level) {
  const puzzle::Rates& rates = exercise.puzzle.find_rates;
  const std::uint64_t found = tally.with_key.count, people = tally.counts.people;
  if (!puzzle::are_known(rates) || people == 0) return "";
  const int rating = puzzle::nearest_told(level);
  return base::grouped(found) + " of " + base::grouped(people) + " found it (" +
         percent(static_cast<double>(found) / static_cast<double>(people)) +
         "); of players rated " + base::number(rating) + " about " +
         percent(puzzle::rate_at(rates, rating)) + " would";
}

namespace {

base::Json json_of(const Tally::Right& right) {
  base::Json people = base::Json::array();
  for (const Person& person : right.first) {
    base::Json object = base::Json::object();
    object.add("name", person.name).add("time", person.time);
    people.push(std::move(object));
  }
  base::Json object = base::Json::object();
  object.add("count", right.count).add("first", std::move(people));
  return object;
}

base::Json json_of(const Exercise& exercise, const Tally::Row& row) {
  base::Json object = base::Json::object();
  object.add("move", rules::to_san(exercise.puzzle.position, row.move)).add("count", row.count);
  object.add("key", row.is_key).add("first", row.first.name);
  if (row.weighed) {
    object.add("verdict", verdict_of(exercise, row));
    object.add("good", row.is_key || row.weighed->is_good);
    object.add("expectation", row.weighed->expectation);
  }
  return object;
}

}  // namespace

std::string tally_text(const Exercise& exercise, const Tally& tally, const TallyView& view) {
  std::string text = opening(exercise, tally.counts);
  const auto people = static_cast<double>(std::max<std::uint64_t>(1, tally.counts.people));
  const auto in_letters = [&view](const std::string& words) {
    return rules::in_letters(words, view.letters);
  };
  std::size_t left_out = 0;
  for (std::size_t i = 0; i < tally.rows.size(); ++i) {
    const Tally::Row& row = tally.rows[i];
    if (i >= view.most && !(row.is_key && view.reveals)) {
      ++left_out;
      continue;
    }
    text += "  " + fitted(in_letters(plain_san(exercise.puzzle.position, row.move)), 8) +
            fitted(base::grouped(row.count), 8) +
            fitted(percent(static_cast<double>(row.count) / people), 7);
    text += (view.reveals ? in_letters(verdict_of(exercise, row)) : "") + "\n";
  }
  if (left_out > 0) text += "  and " + base::grouped(left_out) + " other moves\n";
  text += in_letters(refused_text(tally.refused));
  if (!view.reveals) return text;
  text += "\nFirst with the key: " + names_text(tally.with_key, 1) + "\n";
  if (asked_of(exercise.puzzle).size() > 1) {
    text += "The whole solution: " + names_text(tally.with_solution, shown_names) + "\n";
  }
  const std::string expected = expected_text(exercise, tally, view.level);
  return text + (expected.empty() ? "" : expected + "\n");
}

std::string tally_json(const Exercise& exercise, const Tally& tally, int level) {
  base::Json moves = base::Json::array(), refused = base::Json::array();
  for (const Tally::Row& row : tally.rows) moves.push(json_of(exercise, row));
  for (const Tally::Refused& r : tally.refused) {
    base::Json object = base::Json::object();
    object.add("text", r.text).add("why", r.why).add("count", r.count);
    refused.push(std::move(object));
  }
  const Tally::Counts& c = tally.counts;
  base::Json object = base::Json::object();
  object.add("version", 1).add("id", exercise.id);
  object.add("fen", rules::to_fen(exercise.puzzle.position));
  object.add("lines", c.lines).add("people", c.people).add("again", c.again);
  object.add("not_playable", c.refused).add("talk", c.talk).add("not_read", c.unreadable);
  object.add("not_kept", c.too_many).add("not_meant", c.unmeant).add("changed", c.changed);
  object.add("late", c.late);
  object.add("moves", std::move(moves)).add("refused", std::move(refused));
  object.add("with_key", json_of(tally.with_key));
  object.add("with_solution", json_of(tally.with_solution));
  if (const puzzle::Rates& rates = exercise.puzzle.find_rates; puzzle::are_known(rates)) {
    const int rating = puzzle::nearest_told(level);
    object.add("level", rating).add("expected", puzzle::rate_at(rates, rating));
  }
  return base::to_json(object) + "\n";
}

std::string place_words(const audience::Place& place, std::size_t most) {
  std::vector<std::string> shown = place.names;
  if (shown.size() > most) shown.resize(most);
  std::string text = base::join(shown, ", ");
  if (shown.size() < place.names.size()) {
    text += " and " + base::grouped(place.names.size() - shown.size()) + " more";
  }
  return text + ": " + base::counted(place.points, "point");
}

std::string places_text(const std::vector<audience::Place>& places, std::size_t most) {
  std::string text;
  for (std::size_t i = 0; i < std::min(most, places.size()); ++i) {
    text += "  " + base::grouped(places[i].place) + ". " + place_words(places[i], shown_of_place) +
            "\n";
  }
  return text.empty() ? "" : "Points:\n" + text;
}

std::string places_json(const std::vector<audience::Place>& places) {
  base::Json list = base::Json::array();
  for (const audience::Place& place : places) {
    base::Json names = base::Json::array(), object = base::Json::object();
    for (const std::string& name : place.names) names.push(name);
    object.add("place", place.place).add("points", place.points).add("names", std::move(names));
    list.push(std::move(object));
  }
  base::Json object = base::Json::object();
  object.add("version", 1).add("type", "points").add("places", std::move(list));
  return base::to_json(object) + "\n";
}

}  // namespace kairos::report
