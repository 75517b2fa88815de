#include "kairos/batch/run.hpp"

#include <catch2/catch.hpp>

using namespace kairos;
using batch::InputGame;

namespace {

batch::Input input_of(const std::vector<std::string>& texts) {
  batch::Input input;
  input.files = {"a.pgn"};
  for (const std::string& text : texts) {
    input.games.push_back({.key = batch::key_of(text), .number = ++input.games_total});
  }
  return input;
}

}  // namespace

TEST_CASE("a game key is written in 24 digits and read back") {
  const batch::GameKey key = batch::key_of("[Event \"?\"]\n");
  CHECK(batch::to_text(key).size() == 24);
  CHECK(batch::parse_key(batch::to_text(key)).value() == key);
  CHECK(batch::to_text(batch::key_of("")) == "cbf29ce48422232500000000");
  for (const char* text : {"", "cbf2", "cbf29ce4842223250000000g", "CBF29CE48422232500000000",
                           "cbf29ce484222325000000000"}) {
    CAPTURE(text);
    CHECK_FALSE(batch::parse_key(text).ok());
  }
}

TEST_CASE("what is unlike in evaluation and definitions is told, whatever else differs") {
  const batch::RunHeader one{"1.0", "0a1b2c3d", 1, "survey=10", {}};
  batch::RunHeader other{"1.1", "0a1b2c3d", 1, "survey=20", {1, 2}};
  CHECK(batch::unlike(one, other).empty());
  other.evaluation = "deadbeef";
  CHECK(batch::unlike(one, other) == "evaluation 0a1b2c3d, not deadbeef");
  other.definitions = 2;
  CHECK(batch::unlike(one, other) == "evaluation 0a1b2c3d, not deadbeef; definitions 1, not 2");
  other.evaluation = one.evaluation;
  CHECK(batch::unlike(one, other) == "definitions 1, not 2");
}

TEST_CASE("parts share all games among them, each game once") {
  for (const int of : {1, 2, 3, 7}) {
    for (std::size_t game = 0; game < 30; ++game) {
      int holders = 0;
      for (int number = 1; number <= of; ++number) {
        holders += batch::Part{number, of}.holds(game) ? 1 : 0;
      }
      CHECK(holders == 1);
    }
  }
}

TEST_CASE("a part is written K/N") {
  CHECK(batch::parse_part("2/5").value() == batch::Part{2, 5});
  CHECK(batch::to_text(batch::Part{2, 5}) == "2/5");
  for (const char* text : {"", "2", "0/5", "6/5", "2/5/6", "a/b", "-1/5", "2/0", "1/99999999"}) {
    CAPTURE(text);
    CHECK(batch::parse_part(text).fault().code == base::Code::usage);
  }
}

TEST_CASE("the fingerprint of an input is that of its games and their order alone") {
  const batch::Input input = input_of({"1", "2", "3"});
  batch::Input moved = input;
  moved.files = {"/elsewhere/b.pgn"};
  moved.games[0].line = 12;
  moved.faults.push_back({});
  CHECK(fingerprint(moved) == fingerprint(input));
  CHECK(fingerprint(input_of({"1", "3", "2"})) != fingerprint(input));
  CHECK(fingerprint(input_of({"1", "2"})) != fingerprint(input));
}

TEST_CASE("a folder takes more games, and fewer, but not another tournament") {
  const batch::Input before = input_of({"1", "2", "3", "4"});
  CHECK(fits(before, before, {}, "out").ok());
  CHECK(fits(before, input_of({"0", "1", "2", "3", "4", "5"}), {}, "out").ok());
  CHECK(fits(before, input_of({"1", "2"}), {}, "out").ok());
  const auto other = fits(before, input_of({"1", "x", "y", "z"}), {}, "out");
  REQUIRE_FALSE(other.ok());
  CHECK(other.fault().code == base::Code::output_belongs_to_other_run);
  CHECK(other.fault().detail.find("3 of its 4 games") != std::string::npos);
  CHECK(other.fault().place.file == "out");
  CHECK(fits(input_of({}), before, {}, "out").ok());
}

TEST_CASE("a part of a split run takes the very same games only") {
  const batch::Input before = input_of({"1", "2"});
  const batch::Part part{1, 2};
  CHECK(fits(before, before, part, "out").ok());
  CHECK_FALSE(fits(before, input_of({"1", "2", "3"}), part, "out").ok());
  CHECK_FALSE(fits(before, input_of({"2", "1"}), part, "out").ok());
}

TEST_CASE("a focus holds the player's games, own decisions, and the ends of games") {
  const InputGame game{.white = "Rosin, Ada", .black = "Bellini, Gia"};
  const batch::Focus everybody, black{{"Bellini, Gia"}}, nobody{{"Aronov"}};
  CHECK(everybody.holds(game, rules::white, false));
  CHECK(black.holds(game));
  CHECK(black.holds(game, rules::black, false));
  CHECK_FALSE(black.holds(game, rules::white, false));
  CHECK(black.holds(game, rules::white, true));
  CHECK_FALSE(nobody.holds(game));
}
