#include <catch2/catch.hpp>

#include "kairos/pgn/writer.hpp"
#include "kairos/study/examine.hpp"

#include "support/games.hpp"

using namespace kairos;
using pgn::GameResult;
using study::Kind;
using study::Moment;
using study::Study;

namespace {

study::Settings small_effort() {
  study::Settings s;
  s.effort = {5'000, 60'000, 100'000};
  return s;
}

// Every verified moment of that kind, through all three passes.
std::vector<Moment> moments_of(const pgn::Game& game, Kind kind) {
  search::Searcher searcher;
  const study::Settings settings = small_effort();
  const study::Scoresheet sheet = study::scoresheet_of(game);
  const Study study = study::survey(sheet, settings, searcher);
  std::vector<Moment> found;
  for (const auto& stretch : study::stretches(study::candidates(sheet, study, settings))) {
    for (study::Verified& v : study::verify(sheet, study, stretch, settings, searcher)) {
      for (Moment& m : v.moments) {
        if (m.kind == kind) found.push_back(std::move(m));
      }
    }
  }
  return found;
}

constexpr std::string_view quiet_moves = "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7";

// White is a queen up and it is Black's move.
constexpr std::string_view queen_up = "6k1/5ppp/8/8/8/8/5PPP/3Q2K1 b - - 0 30";

}  // namespace

TEST_CASE("resigning a level position is told, resigning a lost one is not") {
  const auto early = moments_of(
      support::game(rules::start_fen, quiet_moves, GameResult::white_wins), Kind::ended_early);
  REQUIRE(early.size() == 1);
  CHECK(early[0].ply == 10);
  CHECK_FALSE(early[0].played);
  CHECK(
      moments_of(support::game(queen_up, "h6", GameResult::white_wins), Kind::ended_early).empty());
}

TEST_CASE("von Popiel-Marco, Monte Carlo 1902: Black resigned a won position") {
  // Fact sheet S14 and Q09; I. Becker, Manual de Xadrez.
  const auto early =
      moments_of(support::game("7k/1b1r2p1/p6p/1p2qN2/3bP3/3Q4/P5PP/1B3R1K w - - 0 36", "Rd1",
                               GameResult::white_wins),
                 Kind::ended_early);
  REQUIRE(early.size() == 1);
  CHECK(rules::to_san(early[0].position, early[0].best) == "Bg1");
}

TEST_CASE("a draw agreed in a won position is told, a level one is not, nor a draw by the Laws") {
  const auto drawn = moments_of(support::game(queen_up, "h6", GameResult::draw), Kind::ended_early);
  REQUIRE(drawn.size() == 1);
  CHECK(drawn[0].cost() > 0.25);
  CHECK(
      moments_of(support::game(rules::start_fen, quiet_moves, GameResult::draw), Kind::ended_early)
          .empty());
  // The same position for the third time (article 9.2).
  CHECK(moments_of(support::game(queen_up, "Kf8 Kf1 Kg8 Kg1 Kf8 Kf1 Kg8 Kg1", GameResult::draw),
                   Kind::ended_early)
            .empty());
}

TEST_CASE("forfeits and unfinished games did not end early") {
  pgn::Game forfeit = support::game(rules::start_fen, quiet_moves, GameResult::white_wins);
  forfeit.set_tag("Termination", "time forfeit");
  CHECK(moments_of(forfeit, Kind::ended_early).empty());
  CHECK(moments_of(support::game(rules::start_fen, quiet_moves), Kind::ended_early).empty());
  // A result without play is a forfeit (common practice), whatever the tags say.
  for (const std::string_view moves : {"", "e4", "e4 e5 Nf3"}) {
    CHECK(moments_of(support::game(rules::start_fen, moves, GameResult::white_wins),
                     Kind::ended_early)
              .empty());
  }
}

namespace {

// 1.e4 e5 2.Qh5 Nc6 3.Bc4 g6, with 3...Nf6 as a variation.
pgn::Game with_variation(std::string_view variation) {
  pgn::Game g = support::game(rules::start_fen, "e4 e5 Qh5 Nc6 Bc4 g6 Qf3 Nf6");
  const rules::Position p = pgn::position_at(g, 5);
  pgn::NodeId at = 5;
  for (const rules::Move m : support::line(p, variation)) at = g.add_child(at, m);
  return g;
}

}  // namespace

TEST_CASE("a losing move in the player's own variation is a hole") {
  const auto holes = moments_of(with_variation("Nf6"), Kind::claim);
  REQUIRE(holes.size() == 1);
  CHECK(holes[0].ply == 5);
  CHECK(rules::to_san(holes[0].position, holes[0].played) == "Nf6");
  CHECK(holes[0].cost() >= 0.4);
  CHECK(rules::to_san(holes[0].position.after(holes[0].played), holes[0].refutation) ==
        std::vector<std::string>{"Qxf7#"});
  REQUIRE(holes[0].reasons.size() == 1);
  CHECK(holes[0].reasons[0].assertion == study::Assertion::playable);
}

TEST_CASE("a bad move shown because it is bad is no hole") {
  CHECK(moments_of(with_variation("Nf6 Qxf7#"), Kind::claim).empty());
  pgn::Game marked = with_variation("Nf6");
  marked.annotate(9).nags.push_back(4);
  CHECK(moments_of(marked, Kind::claim).empty());
  CHECK(moments_of(with_variation("Qe7"), Kind::claim).empty());
}

TEST_CASE("marks and signs that the verdict contradicts are told, others are not") {
  struct Case {
    pgn::NodeId node;
    std::uint8_t nag;
    bool told;
  };
  // Node 4 is 2...Nc6, which guards the pawn; node 6 is 3...g6, the natural answer; node 9
  // is 3...Nf6, which allows mate.
  const Case cases[] = {
      {4, 2, true},                                                 // a good move marked as poor
      {6, 1, false},                                                // and as good
      {6, 10, false}, {6, 18, true}, {6, 14, false}, {9, 3, true},  // a blunder marked as excellent
  };
  for (const Case& c : cases) {
    INFO("node " << c.node << " $" << int{c.nag});
    pgn::Game g = c.node == 9 ? with_variation("Nf6 Qxf7#")
                              : support::game(rules::start_fen, "e4 e5 Qh5 Nc6 Bc4 g6 Qf3 Nf6");
    g.annotate(c.node).nags.push_back(c.nag);
    CHECK(moments_of(g, Kind::claim).empty() == !c.told);
  }
}

TEST_CASE("a sign that blames or praises a move where all is lost anyway is no claim") {
  for (const int nag : {2, 4, 8}) {
    pgn::Game g = support::game(queen_up, "h6 h3 Kh7");
    g.annotate(1).nags.push_back(static_cast<std::uint8_t>(nag));
    CHECK(moments_of(g, Kind::claim).empty());
  }
}

TEST_CASE("bare comments are claims, words inside longer text are not") {
  const auto told = [](std::string comment) {
    pgn::Game g = support::game(rules::start_fen, "e4 e5 Qh5 Nc6 Bc4 g6 Qf3 Nf6");
    g.annotate(6).comments.push_back(std::move(comment));
    return !moments_of(g, Kind::claim).empty();
  };
  CHECK(told("mate in 3"));
  CHECK(told("White wins."));
  CHECK_FALSE(told("draw"));
  CHECK_FALSE(told("White wins only if Black now forgets the threat"));
}
