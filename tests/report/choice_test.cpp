// Why a puzzle was chosen, in a few true words.
#include <catch2/catch.hpp>

#include "kairos/report/words.hpp"

#include "support/games.hpp"

using namespace kairos;
using report::choice_words;

namespace {

// A back rank (common practice) as an invented game has it; found by about half.
puzzle::Puzzle back_rank() {
  puzzle::Puzzle p;
  p.position = support::position("6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 30");
  p.line = support::line(p.position, "Ra8#");
  p.reward = puzzle::Reward::mate;
  p.solve_rates = {3000, 5000, 7000, 9600};
  p.game_label = "Rosin, Erik - Amber, Joan, Club Open, round 3";
  p.kind = study::Kind::only_move;
  p.found = true;
  return p;
}

void add_try(puzzle::Puzzle& p, puzzle::Rates shares) {
  p.tries.push_back({support::move(p.position, "Kf1"), 0, {}, shares});
}

}  // namespace

TEST_CASE("where nothing else is to be said, how many of the level find it") {
  puzzle::Puzzle p = back_rank();
  CHECK(choice_words(p, 2000) == "5 in 10 at 2000 solve it");
  CHECK(choice_words(p, 1600) == "3 in 10 at 1600 solve it");
  CHECK(choice_words(p, 2800) == "nearly all at 2800 solve it");
  p.mate_moves = 1;
  CHECK(choice_words(p, 2000) == "mate, 5 in 10 at 2000 solve it");
  p.solve_rates = {};  // not known: no word on it
  CHECK(choice_words(p, 2000) == "mate");
  p.mate_moves = 0;
  CHECK(choice_words(p, 2000) == "mate");  // the reward
  p.reward = puzzle::Reward::save;
  CHECK(choice_words(p, 2000) == "save");
}

TEST_CASE("a key is rarely found below fifteen in a hundred of the level") {
  puzzle::Puzzle p = back_rank();
  p.solve_rates = {1499, 1500, 3000, 5000};
  CHECK(choice_words(p, 1600) == "rarely found");
  CHECK(choice_words(p, 2000) == "2 in 10 at 2000 solve it");
  p.line = support::line(p.position, "h3");
  CHECK(choice_words(p, 1600) == "quiet, rarely found");
}

TEST_CASE("a try tempts when one in four of the level would choose it") {
  puzzle::Puzzle p = back_rank();
  p.mate_moves = 1;
  add_try(p, {2500, 2499, 0, 0});
  CHECK(choice_words(p, 1600) == "mate, tempting try");
  CHECK(choice_words(p, 2000) == "mate, 5 in 10 at 2000 solve it");
  add_try(p, {0, 3000, 0, 0});
  CHECK(choice_words(p, 2000) == "mate, tempting try");
}

TEST_CASE("missed is what the player of the game had to choose and did not") {
  puzzle::Puzzle p = back_rank();
  CHECK(choice_words(p, 2000) == "5 in 10 at 2000 solve it");  // found
  p.found = false;
  CHECK(choice_words(p, 2000) == "missed by Rosin");
  p.kind = study::Kind::swing;  // perhaps the game ended here
  CHECK(choice_words(p, 2000) == "not played by Rosin");
  p.kind = study::Kind::ended_early;
  CHECK(choice_words(p, 2000).starts_with("not played by"));
  p.kind = study::Kind::quiet_win;
  p.game_label = "? - Amber, Joan, Club Open";
  CHECK(choice_words(p, 2000) == "missed in the game");
  p.game_label = std::string(31, 'x') + " - Amber, Joan, Club Open";
  CHECK(choice_words(p, 2000) == "missed in the game");
  p.avoided = support::move(p.position, "h3");  // nobody was asked
  CHECK(choice_words(p, 2000) == "5 in 10 at 2000 solve it");
}

TEST_CASE("a puzzle of Black's was missed by Black") {
  puzzle::Puzzle p = back_rank();
  p.position = support::position("r5k1/5ppp/8/8/8/8/5PPP/6K1 b - - 0 30");
  p.line = support::line(p.position, "Ra1#");
  p.found = false;
  CHECK(choice_words(p, 2000) == "missed by Amber");
}

TEST_CASE("without a line there is nothing to say") {
  CHECK(choice_words({}, 2000).empty());
}
