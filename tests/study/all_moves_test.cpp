// The looks at all legal moves: what the model of players is handed.
#include "kairos/study/all_moves.hpp"

#include <catch2/catch.hpp>

#include "kairos/people/shares.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

using namespace kairos;

namespace {

double share(const char* fen, const char* san, int rating) {
  const rules::Position p = rules::parse_fen(fen).value();
  const auto judged = study::judge_all_moves(p, {});
  return people::share_of(rules::read_san(p, san).move, judged,
                          people::shares(p, {}, judged, rating));
}

}  // namespace

TEST_CASE("all legal moves are judged once, by expectations, the same every time") {
  for (const char* fen : {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
                          "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
                          "8/8/8/8/8/5k2/7p/7K w - - 0 1"}) {
    const rules::Position p = rules::parse_fen(fen).value();
    const auto judged = study::judge_all_moves(p, {});
    rules::MoveList legal;
    rules::legal_moves(p, legal);
    REQUIRE(judged.size() == legal.size());
    for (std::size_t i = 0; i < judged.size(); ++i) {
      CHECK(judged[i].move == legal[i]);
      for (const double e : {judged[i].at_a_glance, judged[i].soon, judged[i].in_the_end}) {
        CHECK((e >= 0 && e <= 1));
      }
    }
    CHECK(judged == study::judge_all_moves(p, {}));
  }
}

TEST_CASE("a mate in one is found by nearly all, a famous sacrifice by fewer") {
  // Opera game, Paris 1858, and the move before: fact sheet, section 6.5.
  const double mates = share("1n2kb1r/p4ppp/4q3/4p1B1/4P3/8/PPP2PPP/2KR4 w k - 0 17", "Rd8#", 1800);
  CHECK(mates > 0.9);
  const double sacrifice =
      share("4kb1r/p2n1ppp/4q3/4p1B1/4P3/1Q6/PPP2PPP/2KR4 w k - 0 16", "Qb8+", 1800);
  CHECK(sacrifice < mates);
}

TEST_CASE("what was played before a ply comes from the game") {
  const rules::Position start = rules::Position::start();
  const std::vector<rules::Move> moves = {rules::read_san(start, "e4").move,
                                          rules::Move::normal(rules::d7, rules::d5),
                                          rules::Move::normal(rules::e4, rules::d5)};
  std::vector<rules::Position> positions = {start};
  for (const rules::Move m : moves) positions.push_back(positions.back().after(m));
  CHECK_FALSE(study::before_of(positions, moves, 0).last);
  CHECK(study::before_of(positions, moves, 1).last == moves[0]);
  CHECK_FALSE(study::before_of(positions, moves, 1).own_last);
  const people::Before before = study::before_of(positions, moves, 3);
  CHECK(before.last == moves[2]);
  CHECK(before.last_took);
  CHECK(before.own_last == moves[1]);
}
