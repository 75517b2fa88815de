// Where a solution ends.
#include "solution.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "support/games.hpp"

using namespace kairos;

namespace {

// Of a position that has one right move.
puzzle::Solution solution_of(std::string_view fen, std::vector<rules::Key> earlier = {}) {
  puzzle::Question question;
  question.position = support::position(fen);
  question.earlier = std::move(earlier);
  search::Searcher searcher;
  const puzzle::Answer answer =
      puzzle::answer_of(question.position, question.earlier, 200'000, searcher);
  REQUIRE(answer.unique());
  return puzzle::solve(question, answer, 200'000, searcher);
}

}  // namespace

TEST_CASE("nothing is asked or shown behind a position that comes back") {
  // Made up: White is a rook and more down and checks without end; any other move loses.
  const puzzle::Solution s = solution_of("6k1/6p1/8/5p1Q/8/8/r1q5/6K1 w - - 0 1");
  CHECK(s.reward == puzzle::Reward::save);
  REQUIRE(s.line.size() == 5);  // Qe8+ Kh7 Qh5+ Kg8 Qe8+
  CHECK(s.line[0] == s.line[4]);
  CHECK(s.asked <= 5);
}

TEST_CASE("a line ends with a move of the solver, also where the reply makes the draw") {
  // Made up: the queen gives herself on h7, and the king that must take her leaves stalemate.
  const puzzle::Solution s = solution_of("7k/8/8/8/3p4/6q1/3r4/1Q5K w - - 0 1");
  CHECK(s.reward == puzzle::Reward::save);
  CHECK(s.line.size() == 1);
}

TEST_CASE("a line ends with a move of the solver, also where the reply repeats a third time") {
  // Made up: the game has had the position after 1. Qe8+ Kh7 twice, by other moves.
  const rules::Position start = support::position("6k1/6p1/8/5p1Q/8/8/r1q5/6K1 w - - 12 20");
  const auto line = support::line(start, "Qe8+ Kh7");
  const rules::Key again = start.after(line[0]).after(line[1]).key();
  const puzzle::Solution s = solution_of("6k1/6p1/8/5p1Q/8/8/r1q5/6K1 w - - 12 20",
                                         {again, 1, 2, 3, again, 4, 5, 6, 7, 8, 9, 10});
  CHECK(s.reward == puzzle::Reward::save);
  CHECK(s.line.size() % 2 == 1);
}

TEST_CASE("what cannot be seen on the board at the end of a line is no puzzle") {
  // Marshall-Tarrasch, Mannheim 1914 (shared/data/pgn/events/Mannheim1914.pgn): 46... Kd6 holds,
  // by a move that takes nothing, and nothing repeats soon.
  const puzzle::Solution s = solution_of("8/p6p/1pk3b1/4p3/1PP4P/P3KN2/8/8 b - - 4 46");
  CHECK(s.drop == puzzle::Drop::no_reward);
}

TEST_CASE("where the man that moved last could be taken, an answer to his going on is shown") {
  // Kritz-Burnier, Biel 2008 (shared/data/pgn/rated/Biel2008.pgn): 41. Rxf4 Rxf4 42. Rxc7.
  const puzzle::Solution s =
      solution_of("Q7/R1bq2kp/2p2r2/1p1p2n1/3P1p2/2P2RPP/6K1/6N1 w - - 2 41");
  CHECK(s.reward == puzzle::Reward::material);
  CHECK(s.asked == 1);
  CHECK(s.line.size() >= 3);
}

TEST_CASE("where the man that made the key could be taken, that is answered beside the line") {
  // Topalov-Dreev, Tripoli 2004 (shared/data/pgn/events/FideChamp2004.pgn): 32. a4 Qxa4 33. bxa4.
  constexpr const char* fen = "3r2k1/pp3pp1/q3p2p/4P1P1/3P1NQP/1P1R4/P1r5/1K1R4 w - - 1 32";
  const puzzle::Solution s = solution_of(fen);
  REQUIRE(s.line.size() > 1);
  CHECK(s.line[1].to() != rules::a4);
  const rules::Position offered = support::position(fen).after(s.line[0]);
  REQUIRE(s.if_taken.size() >= 2);
  const auto first = support::line(offered, "Qxa4 bxa4");
  CHECK(std::equal(first.begin(), first.end(), s.if_taken.begin()));
}

TEST_CASE("the key that goes back to where the game has been shows no draw yet") {
  // Made up, as above: the first check leads to a position that the game has had.
  constexpr const char* fen = "6k1/6p1/8/5p1Q/8/8/r1q5/6K1 w - - 0 1";
  const rules::Position start = support::position(fen);
  const rules::Key seen = start.after(support::move(start, "Qe8+")).key();
  const puzzle::Solution s = solution_of(fen, {seen, 1, 2, 3});
  CHECK(s.reward == puzzle::Reward::save);
  CHECK(s.line.size() >= 3);
  // For the third time: the game is over at once.
  const puzzle::Solution third = solution_of("6k1/6p1/8/5p1Q/8/8/r1q5/6K1 w - - 12 20",
                                             {1, seen, 2, 3, 4, seen, 5, 6, 7, 8, 9, 10});
  CHECK(third.drop == puzzle::Drop::no_reward);
}
