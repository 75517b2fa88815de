// The words of puzzles: hints, themes, the figures of difficulty.
#include <catch2/catch.hpp>

#include "kairos/report/words.hpp"

#include "support/games.hpp"

using namespace kairos;

namespace {

// Legal-Saint Brie, Paris c.1750: 6. Bxf7+ gives up the queen and mates.
puzzle::Puzzle legal_mate() {
  puzzle::Puzzle p;
  p.position =
      support::position("rn1qkbnr/ppp2p1p/3p2p1/4N3/2B1P3/2N5/PPPP1PPP/R1BbK2R w KQkq - 0 6");
  p.line = support::line(p.position, "Bxf7+ Ke7 Nd5#");
  p.reward = puzzle::Reward::mate;
  p.mate_moves = 2;
  p.motifs = {study::Motif::deflection, study::Motif::sacrifice};
  p.tries = {{support::move(p.position, "Nxd1"), -500, {}, {}}};
  return p;
}

}  // namespace

TEST_CASE("hints go from the aim to the theme and never name the key") {
  puzzle::Puzzle p = legal_mate();
  CHECK(report::hints_of(p) == std::vector<std::string>{"White to move and mate in 2.",
                                                        "Something has to be given up first.",
                                                        "It is a move of a bishop.",
                                                        "The theme: deflection."});
  p.mate_moves = 0;
  p.motifs.clear();
  CHECK(report::hints_of(p) == std::vector<std::string>{"White to move and mate.",
                                                        "Start with the checks.",
                                                        "It is a move of a bishop."});
  p.line = support::line(p.position, "O-O");
  p.reward = puzzle::Reward::save;
  CHECK(report::hints_of(p) ==
        std::vector<std::string>{"White to move and save the game.",
                                 "No capture and no check: look for a quiet move.",
                                 "It is a move of the king."});
  // The pawn has one move, and naming the pawn would name it (made for the test).
  p.position = support::position("7k/8/8/8/8/P7/8/K7 w - - 0 1");
  p.line = support::line(p.position, "a4");
  p.reward = puzzle::Reward::advantage;
  CHECK(report::hints_of(p) ==
        std::vector<std::string>{"White to move and win.",
                                 "No capture and no check: look for a quiet move."});
}

TEST_CASE("themes and the figures of the difficulty follow from the puzzle") {
  puzzle::Puzzle p = legal_mate();
  CHECK(report::themes_of(p) == std::vector<std::string>{"mate in 2", "deflection", "sacrifice"});
  CHECK(report::difficulty_words(p) == "2 moves, sacrifice, 1 try, 1 reply to the key");
  p.reward = puzzle::Reward::advantage;
  p.mate_moves = 0;
  p.motifs.clear();
  p.line = support::line(p.position, "O-O");
  p.tries.clear();
  CHECK(report::themes_of(p) == std::vector<std::string>{"advantage", "quiet move"});
  CHECK(report::difficulty_words(p).starts_with("1 move, quiet key, 0 tries, "));
}
