// The words of puzzles: hints, themes, the figures of difficulty.
#include <catch2/catch.hpp>

#include "kairos/report/exercise.hpp"
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
  p.asked = 3;
  p.solve_rates = {2000, 3125, 4500, 6000};
  p.tries = {{support::move(p.position, "Nxd1"), -500, {}, {}}};
  return p;
}

}  // namespace

TEST_CASE("hints go from the aim to the theme and never name the key") {
  puzzle::Puzzle p = legal_mate();
  // "Mate in 2" is the question already.
  CHECK(report::hints_of(p, report::aim_of(p)) ==
        std::vector<std::string>{"Something has to be given up first.", "It is a move of a bishop.",
                                 "The theme: deflection."});
  p.mate_moves = 0;
  p.motifs.clear();
  CHECK(report::hints_of(p, report::aim_of(p)) ==
        std::vector<std::string>{"White to move and mate.", "Start with the checks.",
                                 "It is a move of a bishop."});
  CHECK(report::hints_of(p, std::nullopt).front() == "Start with the checks.");
  p.line = support::line(p.position, "O-O");
  p.reward = puzzle::Reward::save;
  CHECK(report::hints_of(p, report::aim_of(p)) ==
        std::vector<std::string>{"White to move and save the game.",
                                 "No capture and no check: look for a quiet move.",
                                 "It is a move of the king."});
  // The pawn has one move, and naming the pawn would name it (made for the test).
  p.position = support::position("7k/8/8/8/8/P7/8/K7 w - - 0 1");
  p.line = support::line(p.position, "a4");
  p.reward = puzzle::Reward::advantage;
  CHECK(report::hints_of(p, report::aim_of(p)) ==
        std::vector<std::string>{"White to move and win.",
                                 "No capture and no check: look for a quiet move."});
}

TEST_CASE("who wins material and is no better for it has saved the game") {
  puzzle::Puzzle p = legal_mate();
  p.mate_moves = 0;
  p.reward = puzzle::Reward::material;
  p.score = 61;
  CHECK(report::hints_of(p, report::aim_of(p)).front() == "White to move and win material.");
  CHECK(report::themes_of(p).front() == "material");
  p.score = 60;
  CHECK(report::hints_of(p, report::aim_of(p)).front() == "White to move and save the game.");
  CHECK(report::themes_of(p).front() == "save");
}

TEST_CASE("a why-not is asked by the move that was not played") {
  puzzle::Puzzle p;  // Damiano's defence (from memory): 3. Nxe5 fxe5 4. Qh5+
  p.before = support::position("rnbqkbnr/pppp2pp/5p2/4N3/4P3/8/PPPP1PPP/RNBQKB1R b KQkq - 0 3");
  p.avoided = support::move(p.before, "fxe5");
  p.position = p.before.after(p.avoided);
  p.line = support::line(p.position, "Qh5+ g6 Qxe5+");
  CHECK(report::task_of(p) == "Why not 3... fxe5? White to move");
  p.asked = 1;
  p.difficulty = 0;  // not known
  const std::string question = report::question_text(p);
  CHECK_THAT(question, Catch::Contains("\n\nWhy not 3... fxe5? White to move\nThe move was not"));
  CHECK_THAT(question, Catch::Contains("5 | .   .   N   .   |"));  // nothing has taken it
  puzzle::Exercise exercise{.id = "d", .keys = {p.line.front()}, .themes = {}, .puzzle = p};
  CHECK(report::solution_rows(exercise).front().text ==
        "4. Qh5+ (then, for instance, 4... g6 5. Qxe5+)");
  p.score = 300;
  CHECK(report::hints_of(p, report::aim_of(p)).front() == "White to move and win material.");
}

TEST_CASE("moves behind those that are asked are told apart") {
  puzzle::Puzzle p = legal_mate();
  CHECK(report::solution_words(p) == "6. Bxf7+ Ke7 7. Nd5#");
  p.asked = 1;
  CHECK(report::solution_words(p) == "6. Bxf7+ (then, for instance, 6... Ke7 7. Nd5#)");
  p.asked = 3;
  p.if_taken = support::line(p.position.after(p.line.front()), "Ke7 Nd5#");
  CHECK(report::solution_words(p) == "6. Bxf7+ Ke7 7. Nd5#; if 6... Ke7, 7. Nd5#");
}

TEST_CASE("themes and the figures of the difficulty follow from the puzzle") {
  puzzle::Puzzle p = legal_mate();
  CHECK(report::themes_of(p) == std::vector<std::string>{"mate in 2", "deflection", "sacrifice"});
  CHECK(report::difficulty_words(p) ==
        "about 3 in 10 players rated 2000 find both moves, sacrifice, 1 try, 1 reply to the "
        "key");
  p.reward = puzzle::Reward::advantage;
  p.mate_moves = 0;
  p.motifs.clear();
  p.line = support::line(p.position, "O-O");
  p.tries.clear();
  CHECK(report::themes_of(p) == std::vector<std::string>{"advantage", "quiet move"});
  p.asked = 1;
  for (const auto& [rate, words] :
       {std::pair(499, "fewer than 1 in 20"), std::pair(500, "about 1 in 10"),
        std::pair(4'500, "about half of the"), std::pair(8'499, "about 8 in 10"),
        std::pair(8'500, "nearly all")}) {
    p.solve_rates[1] = rate;
    CHECK_THAT(report::difficulty_words(p),
               Catch::StartsWith(std::string(words) +
                                 " players rated 2000 find it, quiet key, 0 tries, "));
  }
}
