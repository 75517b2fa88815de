// Sizes no real file has: nothing here may recurse, keep more than a game, or take longer than its
// bytes deserve.
#include <catch2/catch.hpp>
#include <string>

#include "kairos/pgn/replay.hpp"
#include "kairos/pgn/writer.hpp"

#include "pgn/reading.hpp"

using namespace kairos;
using namespace kairos::pgn;
using base::Code;

namespace {

constexpr std::size_t ten_megabytes = 10'000'000;

const std::string next_game = "\n\n[White \"B\"]\n\n1. d4 *\n";

}  // namespace

TEST_CASE("forty thousand variations inside one another are read, replayed and written") {
  constexpr std::size_t depth = 40'000;
  // Each replaces the last move of the one around it; knights go out and home again.
  const std::string text = "1. Nf3 " + repeated("(Nh3 Nf6 Nc3 (Ng1 Ng8 Nf3 ", depth / 2) +
                           repeated(")", depth) + " e5 *" + next_game;
  Reading reading = read_all(text);
  REQUIRE(reading.games.size() == 2);
  CHECK(reading.faults.empty());
  CHECK(summary(reading.games[1]) == "White=B: d4 *");
  Game& game = reading.games[0];
  CHECK(game.nodes.size() == 1 + 2 + 3 * depth);
  base::FaultList faults;
  CHECK(replay(game, faults).plies == 2);
  CHECK(faults.faults.empty());
  CHECK(game.nodes.size() == 1 + 2 + 3 * depth);
  Reading again = read_all(to_pgn(game));
  REQUIRE(again.games.size() == 1);
  CHECK(tree_of(again.games[0]) == tree_of(game));
}

TEST_CASE("thousands of variations side by side are read in the time of their bytes") {
  constexpr std::size_t variations = 60'000;
  const std::string text = "1. e4 " + repeated("(1. d4 d5) ", variations) + " e5 *" + next_game;
  Reading reading = read_all(text);
  REQUIRE(reading.games.size() == 2);
  base::FaultList faults;
  CHECK(replay(reading.games[0], faults).plies == 2);
  CHECK(faults.faults.empty());
  CHECK(reading.games[0].nodes.size() == 1 + 2 + 2 * variations);
  Reading again = read_all(to_pgn(reading.games[0]));
  CHECK((tree_of(again.games.at(0)) == tree_of(reading.games[0])));
}

TEST_CASE("a game longer than the Laws allow is cut there, told once and accounted for") {
  const std::string text =
      "1. Nf3 Nf6 2. Ng1 Ng8 " + repeated("1. Nf3 {x} Nf6 2. Ng1 (Nd4) Ng8 ", 100'000) + "1-0";
  Reading reading = read_all(text + next_game);
  REQUIRE(reading.games.size() == 2);
  CHECK(reading.games_met == 2);
  CHECK(reading.codes() == std::vector<Code>{Code::game_too_long});
  CHECK(summary(reading.games[1]) == "White=B: d4 *");
  Game& game = reading.games[0];
  CHECK(game.result == GameResult::white_wins);
  base::FaultList faults;
  CHECK(replay(game, faults).plies == ReaderLimits{}.plies);
  CHECK(faults.faults.empty());
}

TEST_CASE("more variations than are kept leave the main line whole") {
  const std::string text = "1. e4 " + repeated("(1. d4 d5 {x}) ", 150'000) + " e5 2. Nf3 *";
  const Reading reading = read_all(text + next_game);
  REQUIRE(reading.games.size() == 2);
  CHECK(reading.codes() == std::vector<Code>{Code::game_too_long});
  const Game& game = reading.games[0];
  CHECK(game.main_line().size() == 3);
  CHECK(game.nodes.size() == 1 + 3 + ReaderLimits{}.variation_plies);
}

TEST_CASE("comments in variations without moves are read in the time of their bytes") {
  // Each ) moved all of them one level out.
  constexpr std::size_t depth = 50'000;
  const std::string text = "1. e4 " + repeated("(", depth) + repeated("{a}", depth) +
                           repeated(")", depth) + " e5 *" + next_game;
  const Reading reading = read_all(text);
  REQUIRE(reading.games.size() == 2);
  CHECK(reading.faults.empty());
  CHECK(reading.games[0].annotation_of(1)->comments.size() == depth);
}

TEST_CASE("a comment of ten megabytes is cut, and the game goes on") {
  const std::string text = "1. e4 {" + repeated("words ", ten_megabytes / 6) + "} e5 *" + next_game;
  const Reading reading = read_all(text);
  REQUIRE(reading.games.size() == 2);
  CHECK(reading.codes() == std::vector<Code>{Code::comment_cut});
  CHECK(reading.games[0].annotation_of(1)->comments.at(0).size() == ReaderLimits{}.comment_bytes);
  CHECK(reading.games[0].main_line().size() == 2);
}

TEST_CASE("a line of ten megabytes is read like any other") {
  const std::string moves = repeated("1. Nf3 Nf6 2. Ng1 Ng8 ", 4'000);
  const std::string text =
      "[White \"A\"] " + moves + repeated(" ", ten_megabytes) + "* " + next_game;
  Reading reading = read_all(text);
  REQUIRE(reading.games.size() == 2);
  base::FaultList faults;
  CHECK(replay(reading.games[0], faults).plies == 16'000);
  CHECK(reading.games[0].nodes.back().line == 1);
  CHECK(reading.games[1].place.line == 3);
}

TEST_CASE("megabytes of one thing over and over are passed over in the time of their bytes") {
  for (const std::string_view unit : {"x",
                                      "9",
                                      "[",
                                      "(",
                                      ")",
                                      "$",
                                      "\"",
                                      "!",
                                      "-",
                                      "<",
                                      "\\",
                                      "\xFF",
                                      "e4",
                                      "*",
                                      "1 ",
                                      "{",
                                      "}",
                                      "{{}",
                                      "[A",
                                      "<a",
                                      "[A \"",
                                      "[A \"b",
                                      "[A \"b\"]",
                                      "[A \"b\"]\n",
                                      "\n[A",
                                      "(;",
                                      "\xA0"
                                      "e",
                                      "%",
                                      "\r",
                                      "$1",
                                      "{}"}) {
    INFO(unit);
    const Reading reading =
        read_all("1. e4 " + repeated(unit, 1'000'000 / unit.size()) + "\n\n}\n" + next_game);
    REQUIRE_FALSE(reading.games.empty());
    CHECK(reading.games_met == reading.games.size());
    CHECK(summary(reading.games.back()).ends_with("d4 *"));
    CHECK(reading.faults.size() < 200);
  }
}
