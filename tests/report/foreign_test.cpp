// Names in report.txt and the pages: nothing in them hides, or turns the line that they stand in.
#include "kairos/base/foreign.hpp"

#include <catch2/catch.hpp>

#include "kairos/base/text.hpp"
#include "kairos/report/habits.hpp"
#include "kairos/report/text_layout.hpp"

#include "support/report_bytes.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;

namespace {

constexpr std::string_view shown_formats[] = {"text", "html", "questions", "sheet", "recap"};

// Alef, bet, gimel.
const std::string hebrew = "\xD7\x90\xD7\x91\xD7\x92";
// Right-to-left override, zero-width space, an isolation begun and another ended, a byte order
// mark.
const std::string hostile =
    "Ad\xE2\x80\xAE"
    "a\xE2\x80\x8B\xE2\x81\xA8\xE2\x81\xA9\xE2\x81\xA9\xEF\xBB\xBF";

test::FakeCollection with_names(const std::string& name) {
  test::FakeCollection collection = test::fake_collection();
  for (study::Study& study : collection.studies) {
    study.facts.white = study.facts.black = study.facts.event = study.facts.site = name;
    study.facts.round = study.facts.date = name;
    study.facts.file = "games/" + name;
  }
  for (puzzle::Puzzle& puzzle : collection.puzzles_) puzzle.game_label = name;
  collection.facts_.player = name;
  // Of a ledger that somebody forged.
  if (name == hostile) collection.facts_.version = collection.facts_.settings = name;
  collection.facts_.faults[0].place.file = name;
  collection.facts_.faults[0].detail = name;
  habits::Habits habits;
  habits.player = habits.field = name;
  habits.habits.emplace_back();
  habits.habits[0].words = "in endings";
  habits.habits[0].examples.emplace_back().game_label = name;
  collection.habits_ = habits;
  return collection;
}

// What is wrong with a line as one paragraph of the bidirectional algorithm: hidden characters, or
// an isolation without its other half.
std::string harm_in(std::string_view line) {
  int open = 0;
  while (!line.empty()) {
    const base::Character c = base::first_character(line);
    line.remove_prefix(c.size);
    if (!c.point) return "no UTF-8";
    if (c.point == 0x2068) {
      ++open;
    } else if (c.point == 0x2069) {
      if (--open < 0) return "an end without a beginning";
    } else if (base::is_hidden(*c.point)) {
      return "hidden";
    }
  }
  return open == 0 ? "" : "a beginning without an end";
}

void check_lines(std::string_view text) {
  for (const std::string_view line : base::split(text, '\n')) {
    const std::string harm = harm_in(line);
    if (!harm.empty()) FAIL(harm << ": " << line);
  }
}

// The line without its isolated texts.
std::string outside(std::string_view line) {
  std::string text;
  int open = 0;
  while (!line.empty()) {
    const base::Character c = base::first_character(line);
    if (c.point == 0x2068) ++open;
    if (open == 0) text += line.substr(0, c.size);
    if (c.point == 0x2069) --open;
    line.remove_prefix(c.size);
  }
  return text;
}

}  // namespace

TEST_CASE("hidden characters of names reach neither report.txt nor a page") {
  const test::FakeCollection collection = with_names(hostile);
  for (const auto format : shown_formats) {
    CAPTURE(std::string(format));
    const std::string text = test::written(format, collection);
    CHECK(text.find("Ada") != std::string::npos);
    CHECK(text.find("\xE2\x81\xA8") == std::string::npos);
    check_lines(text);
  }
}

TEST_CASE("names from right to left are isolated wherever they stand") {
  const test::FakeCollection collection = with_names(hebrew + " " + hebrew);
  for (const auto format : shown_formats) {
    CAPTURE(std::string(format));
    const std::string text = test::written(format, collection);
    check_lines(text);
    CHECK(text.find(hebrew) != std::string::npos);
    // A row that goes on with a name begun in the row above begins with it.
    std::size_t bare = 0;
    for (const std::string_view line : base::split(text, '\n')) {
      const std::string rest = outside(line);
      if (rest.find("\xD7\x90") == std::string::npos) continue;
      ++bare;
      INFO(std::string(line));
      CHECK(base::trim(rest).starts_with("\xD7\x90"));
    }
    CHECK(bare <= (format == "text" ? 20 : 0));
  }
}

TEST_CASE("a name that is cut to fit its column ends its isolation there") {
  std::string long_name;
  for (int i = 0; i < 30; ++i) long_name += hebrew;
  const std::string cut = report::fitted(base::isolated(long_name), 10);
  CHECK(harm_in(cut).empty());
  CHECK(cut.ends_with("\xE2\x81\xA9~"));
  CHECK(base::character_count(cut) == 12);  // ten and the two marks
  // The marks take no room.
  CHECK(report::fitted(base::isolated(hebrew), 5) == base::isolated(hebrew) + "  ");
  CHECK(report::fitted_right(base::isolated(hebrew), 5) == "  " + base::isolated(hebrew));
  CHECK(report::wrapped("1 " + base::isolated(hebrew) + " 2", 7).size() == 1);
}

TEST_CASE("names stay as they are in the data formats") {
  const test::FakeCollection collection = with_names("Ada \xE2\x80\xAE" + hebrew);
  CHECK(test::written("csv", collection).find("Ada \xE2\x80\xAE" + hebrew) != std::string::npos);
  CHECK(test::written("jsonl", collection).find("Ada \\u202e" + hebrew) != std::string::npos);
}
