#include "evaluator.hpp"

#include <catch2/catch.hpp>
#include <random>
#include <vector>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/setup.hpp"

#include "oracles/search_naive.hpp"
#include "support/games.hpp"

using namespace kairos;
using search::Certainty;
using search::Evaluation;
using search::Evaluator;
using support::position;

namespace {

// Without anything remembered.
Evaluation evaluate(const rules::Position& p) {
  Evaluator evaluator;
  evaluator.reset(p);
  return evaluator.evaluate();
}

search::Score score_of(const char* fen) {
  return evaluate(position(fen)).score;
}

// The same position with colours exchanged.
rules::Position colours_exchanged(const rules::Position& p) {
  rules::Setup from = p.setup(), to;
  for (int s = 0; s < 64; ++s) {
    const rules::Piece man = from.board[static_cast<std::size_t>(s)];
    if (man != rules::no_piece) {
      to.board[static_cast<std::size_t>(s ^ 56)] =
          rules::make_piece(~rules::color_of(man), rules::type_of(man));
    }
  }
  to.side_to_move = ~p.side_to_move();
  return *rules::make_position(to);
}

// The same position with the files in reverse order.
rules::Position files_reversed(const rules::Position& p) {
  rules::Setup from = p.setup(), to;
  for (int s = 0; s < 64; ++s) {
    to.board[static_cast<std::size_t>(s ^ 7)] = from.board[static_cast<std::size_t>(s)];
  }
  to.side_to_move = p.side_to_move();
  return *rules::make_position(to);
}

}  // namespace

TEST_CASE("the score does not depend on colour or side of the board", "[evaluate]") {
  constexpr unsigned seed = 20240610;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  for (int i = 0; i < 500; ++i) {
    const int plies = static_cast<int>(random() % 120);
    const auto p = oracles::random_play(random, rules::Position::start(), plies);
    INFO(rules::to_fen(p));
    CHECK(evaluate(p).score == evaluate(colours_exchanged(p)).score);
    CHECK(evaluate(p).score == evaluate(files_reversed(p)).score);
    CHECK(std::abs(evaluate(p).score) <= search::max_evaluation);
  }
}

namespace {

// A walk through the tree below a position, forward and back by chance; at each step the evaluator
// that went along must say what a fresh one says.
class Walk {
 public:
  Walk(std::mt19937_64& random, const rules::Position& root) : random_(random) {
    line_.reserve(search::max_ply);  // the evaluator refers to what is on it
    line_.push_back(root);
    evaluator_.reset(line_.back());
  }

  void step() {
    rules::MoveList moves;
    rules::legal_moves(line_.back(), moves);
    const bool back = line_.size() > 1 && random_() % 3 == 0;
    if (back || moves.empty() || line_.size() == search::max_ply) {
      if (line_.size() == 1) return;
      line_.pop_back();
      evaluator_.pop();
    } else {
      const bool pass = random_() % 8 == 0 && !line_.back().in_check();
      line_.push_back(
          line_.back().after(pass ? rules::null_move : moves[random_() % moves.size()]));
      evaluator_.push(line_.back());
    }
    compare();
  }

 private:
  void compare() {
    const Evaluation fresh = evaluate(line_.back());
    const Evaluation here = evaluator_.evaluate();
    const Evaluation again = evaluator_.evaluated(here.score);
    INFO(rules::to_fen(line_.back()));
    CHECK(here.score == fresh.score);
    CHECK(here.certainty == fresh.certainty);
    CHECK(again.certainty == fresh.certainty);
  }

  std::mt19937_64& random_;
  std::vector<rules::Position> line_;
  Evaluator evaluator_;
};

}  // namespace

TEST_CASE("the score does not depend on the way to the position", "[evaluate]") {
  constexpr unsigned seed = 20240617;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  for (const int plies : {0, 10, 40, 90, 160}) {
    Walk walk(random, oracles::random_play(random, rules::Position::start(), plies));
    for (int i = 0; i < 400; ++i) walk.step();
  }
}

TEST_CASE("an evaluation says how sure it is", "[evaluate]") {
  struct Case {
    const char* fen;
    Certainty certainty;
    const char* why;
  };
  const Case cases[] = {
      {"r2q1rk1/ppp2ppp/2nb1n2/3p4/3P4/2NB1N2/PPP2PPP/R2Q1RK1 w - - 0 10", Certainty::estimate,
       "a middlegame"},
      {"4k3/4pp2/8/8/8/8/4PP2/4K3 w - - 0 1", Certainty::estimate, "six men"},
      {"4k3/4p3/8/8/8/8/4PP2/4K3 w - - 0 1", Certainty::known, "five men"},
      {"8/8/8/3k4/8/8/8/KQ6 w - - 0 1", Certainty::known, "a queen against a bare king"},
      {"8/8/8/3k4/8/8/8/KN6 w - - 0 1", Certainty::known, "nothing to mate with"},
      {"7k/8/8/8/8/8/7P/7K w - - 0 1", Certainty::exact, "a drawn pawn ending"},
      {"3k4/8/3K4/3P4/8/8/8/8 w - - 0 1", Certainty::exact, "a won pawn ending"},
  };
  for (const Case& c : cases) {
    INFO(c.why << ": " << c.fen);
    CHECK(evaluate(position(c.fen)).certainty == c.certainty);
  }
  CHECK(evaluate(position("8/8/8/3k4/8/8/8/KN6 w - - 0 1")).is_known_draw());
  CHECK(evaluate(position("7k/8/8/8/8/8/7P/7K w - - 0 1")).is_known_draw());
  CHECK_FALSE(evaluate(position("3k4/8/3K4/3P4/8/8/8/8 w - - 0 1")).is_known_draw());
  CHECK(score_of("3k4/8/3K4/3P4/8/8/8/8 w - - 0 1") >= search::least_exact_win);
  CHECK(score_of("3k4/8/3K4/3P4/8/8/8/8 b - - 0 1") <= -search::least_exact_win);
}

TEST_CASE("who is better is judged as common practice does", "[evaluate]") {
  struct Case {
    const char* fen;
    int low, high;  // bounds of the score, side to move
    const char* what;
  };
  const Case cases[] = {
      {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", 0, 60, "the start"},
      {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNB1KBNR w KQkq - 0 1", -1500, -600, "a queen down"},
      {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBN1 w Qkq - 0 1", -800, -300, "a rook down"},
      {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/R1BQKBNR w KQkq - 0 1", -500, -180, "a knight down"},
      {"r2q1rk1/ppp2ppp/2nb1n2/3p4/3P4/2NB1N2/P1P2PPP/R2Q1RK1 w - - 0 10", -180, 0, "a pawn down"},
      {"r2q1rk1/ppp2ppp/2nb1n2/3p4/3P4/2NB1N2/PPP2PPP/R2Q1RK1 w - - 0 10", -20, 80, "level"},
      {"4k3/pppp4/8/8/8/8/PPPP1PPP/4K3 w - - 0 1", 200, 800, "three pawns up"},
      {"3qk3/ppp5/8/8/8/8/PPP5/1RR1K3 b - - 0 1", -250, 250, "queen against two rooks"},
      {"4k3/pppb1ppp/8/8/8/8/PPP2PPP/3RK3 w - - 0 1", 60, 400, "the exchange up"},
      {"4k3/pp3ppp/8/8/8/8/PPPPPPPP/4K1N1 w - - 0 1", 300, 1100, "a knight and two pawns up"},
      {"4k3/pppppppp/8/8/8/8/PP3PPP/4KB2 w - - 0 1", -200, 250, "a bishop for three pawns"},
  };
  for (const Case& c : cases) {
    INFO(c.what << ": " << c.fen);
    const int score = score_of(c.fen);
    CHECK(score >= c.low);
    CHECK(score <= c.high);
  }
}

TEST_CASE("a bare king loses to mating material and to nothing less", "[evaluate]") {
  // Common practice; the mates' lengths are in facts.md 6.6.
  CHECK(score_of("8/8/8/3k4/8/8/8/KQ6 w - - 0 1") > 3000);
  CHECK(score_of("8/8/8/3k4/8/8/8/KR6 b - - 0 1") < -3000);
  CHECK(score_of("8/8/8/3k4/8/8/8/KBB5 w - - 0 1") > 3000);
  CHECK(score_of("8/8/8/3k4/8/8/8/KBN5 w - - 0 1") > 3000);
  CHECK(score_of("8/8/8/3k4/8/8/8/KNN5 w - - 0 1") == 0);
  CHECK(score_of("8/8/8/3k4/8/8/8/KB6 w - - 0 1") == 0);
  CHECK(score_of("8/8/8/3k4/8/8/8/KN6 b - - 0 1") == 0);
}

TEST_CASE("with bishop and knight only the bishop's corners are good", "[evaluate]") {
  // Common practice: mate is forced in a corner of the bishop's colour only.
  const int good = score_of("k7/8/2K5/8/8/8/4B3/4N3 w - - 0 1");  // a8 is light, so is e2
  const int bad = score_of("7k/8/5K2/8/8/8/4B3/4N3 w - - 0 1");
  CHECK(good > bad + 100);
}

TEST_CASE("advantages that cannot be won count for little", "[evaluate]") {
  struct Case {
    const char* fen;
    const char* what;
  };
  const Case cases[] = {
      {"k7/8/8/8/8/P7/8/K1B5 w - - 0 1", "rook pawn and wrong bishop: a8 is light, c1 dark"},
      {"4k3/4n3/8/8/8/8/8/R3K3 w - - 0 1", "rook against knight"},
      {"4k3/4b3/8/8/8/8/8/R3K3 w - - 0 1", "rook against bishop"},
      {"4k3/4r3/8/8/8/8/8/RB2K3 w - - 0 1", "rook and bishop against rook"},
      {"4k3/8/8/8/8/8/4p3/1NB1K3 b - - 0 1", "nothing lost yet: only the pawn counts"},
  };
  for (std::size_t i = 0; i + 1 < std::size(cases); ++i) {
    INFO(cases[i].what << ": " << cases[i].fen);
    CHECK(std::abs(score_of(cases[i].fen)) < 120);
  }
  // Bishops of opposite colours hold where bishops of one colour lose (common practice).
  const int opposite = score_of("4k3/1b6/8/3p4/8/8/PPP3PP/2B1K3 w - - 0 1");
  const int same = score_of("4k3/b7/8/3p4/8/8/PPP3PP/2B1K3 w - - 0 1");
  CHECK(opposite < same);
}

TEST_CASE("textbook rook endings lean the right way", "[evaluate]") {
  // facts.md 6.7 and C05: Lucena is won, Philidor and Vancura are drawn.
  CHECK(score_of("1K1k4/1P6/8/8/8/8/r7/2R5 w - - 0 1") > 100);
  CHECK(std::abs(score_of("4k3/R7/8/3KP3/8/8/1r6/8 b - - 0 1")) < 100);
}

TEST_CASE("a king without shelter is worse off than one behind its pawns", "[evaluate]") {
  const int open = score_of("r1bq1r1k/pppp1p2/2n5/4p3/2B1P3/3P1N2/PPP2PPP/R2Q1RK1 w - - 0 10");
  const int shut = score_of("r1bq1r1k/pp3ppp/2np4/2p1p3/2B1P3/3P1N2/PPP2PPP/R2Q1RK1 w - - 0 10");
  CHECK(open > shut + 30);
}
