// moments.jsonl: the fields of the design, section 7, in their order, and nothing broken by names.
#include <catch2/catch.hpp>

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "support/report_bytes.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;

namespace {

std::vector<base::Json> objects_of(std::string_view text) {
  std::vector<base::Json> objects;
  for (const std::string_view line : base::split(text, '\n')) {
    if (line.empty()) continue;
    auto object = base::parse_json(line);
    REQUIRE(object.ok());
    objects.push_back(*object);
  }
  return objects;
}

}  // namespace

TEST_CASE("each moment is one JSON object with the agreed fields first") {
  const std::vector<std::string> agreed = {"version",
                                           "game",
                                           "ply",
                                           "move_number",
                                           "side",
                                           "kind",
                                           "played",
                                           "best",
                                           "cost",
                                           "expectation_best",
                                           "expectation_played",
                                           "score",
                                           "line",
                                           "fen",
                                           "found",
                                           "nodes"};
  const test::FakeCollection collection = test::fake_collection();
  std::size_t moments = 0;
  for (const study::Study& study : collection.studies) moments += study.moments.size();
  const auto objects = objects_of(test::written("jsonl", collection));
  REQUIRE(objects.size() == moments);
  for (const base::Json& object : objects) {
    REQUIRE(object.members() != nullptr);
    REQUIRE(object.members()->size() >= agreed.size());
    for (std::size_t i = 0; i < agreed.size(); ++i) {
      CHECK((*object.members())[i].first == agreed[i]);
    }
    CHECK(object.find("version")->integer() == 1);
  }
}

TEST_CASE("the fields of a moment agree with each other") {
  for (const base::Json& object : objects_of(test::written("jsonl", test::fake_collection()))) {
    const auto position = rules::parse_fen(*object.find("fen")->text());
    REQUIRE(position.ok());
    CHECK(*object.find("side")->text() ==
          (position->side_to_move() == rules::white ? "white" : "black"));
    CHECK(object.find("move_number")->integer() == position->fullmove_number());
    const auto& line = *object.find("line")->elements();
    REQUIRE(!line.empty());
    CHECK(line.front() == *object.find("best"));
    rules::Position at = *position;
    for (const base::Json& san : line) {
      const auto move = rules::parse_san(at, *san.text());
      REQUIRE(move.ok());
      CHECK(rules::to_san(at, *move) == *san.text());
      at.play(*move);
    }
    const double best = *object.find("expectation_best")->real();
    const double played = *object.find("expectation_played")->real();
    CHECK(*object.find("cost")->real() == Approx(std::max(0.0, best - played)).margin(0.0002));
    CHECK(best >= 0);
    CHECK(best <= 1);
  }
}

TEST_CASE("the clock of the move played is told where the game has it, and never of a claim") {
  int with_clock = 0;
  for (const base::Json& object : objects_of(test::written("jsonl", test::fake_collection()))) {
    const base::Json &left = *object.find("clock"), &spent = *object.find("time_spent");
    if (*object.find("kind")->text() == "claim") CHECK(left.is_null());
    if (left.is_null()) continue;
    ++with_clock;
    const std::int64_t ply = *object.find("ply")->integer();  // support/report_fakes.cpp
    CHECK(left.integer() == 5400 - ply * ply * 20);
    if (ply >= 2) CHECK(spent.integer() == (ply * ply - (ply - 2) * (ply - 2)) * 20);
    if (ply < 2) CHECK(spent.is_null());
  }
  CHECK(with_clock > 0);
}

TEST_CASE("kinds and missing moves are written as the format says") {
  const auto objects = objects_of(test::written("jsonl", test::fake_collection()));
  std::vector<std::string> kinds;
  for (const base::Json& object : objects) {
    kinds.push_back(*object.find("kind")->text());
    CHECK(object.find("played")->is_null() == (kinds.back() == "ended_early"));
    CHECK(object.find("tempting")->is_null() == (kinds.back() != "trap"));
  }
  CHECK(kinds == std::vector<std::string>{"swing", "only_move", "only_move", "trap", "claim",
                                          "quiet_win", "swing", "ended_early"});
}

TEST_CASE("the account of a turning point stands once, with the moment that leads it") {
  test::FakeCollection collection = test::fake_collection();
  const auto objects = objects_of(test::written("jsonl", collection));
  std::vector<std::string> accounts;
  for (const base::Json& object : objects) accounts.push_back(*object.find("account")->text());
  // Of Saavedra's ending the only move leads, and the trap is told with it.
  CHECK(accounts[2] ==
        "Only 6. c8=R wins. White found it. The tempting 6. c8=Q lets the win slip: "
        "6... Rc4+ draws by stalemate.");
  CHECK(accounts[3].empty());
  CHECK(accounts[4].empty());  // a claim
  CHECK(*objects[3].find("sentence")->text() ==
        "The tempting 6. c8=Q lets the win slip: 6... Rc4+ draws by stalemate.");
}

TEST_CASE("names come back from JSON as they were, whatever is in them (RFC 8259, section 7)") {
  test::FakeCollection collection = test::fake_collection();
  for (const std::string name :
       {"O\"Neill \\ </script>", "tab\tand\nline", "\xF0\x9F\x90\xB4 horse", "\x7F"}) {
    collection.studies[0].facts.white = name;
    const auto objects = objects_of(test::written("jsonl", collection));
    CHECK(*objects[0].find("white")->text() == name);
  }
  // What is no UTF-8 is read as ISO 8859-1, the character set of PGN (standard, 4.1).
  collection.studies[0].facts.white = "caf\xE9";
  CHECK(*objects_of(test::written("jsonl", collection))[0].find("white")->text() == "caf\xC3\xA9");
}
