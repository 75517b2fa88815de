#include "kairos/audience/responder.hpp"

#include <catch2/catch.hpp>
#include <thread>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/study/expectation.hpp"

using namespace kairos;
using namespace kairos::audience;

namespace {

// Bernstein-Capablanca, Moscow 1914 (fact sheet, O13): only 29... Qb2 wins.
const rules::Position moscow = *rules::parse_fen("3r2k1/p4ppp/1q6/8/8/2R1P3/P3QPPP/6K1 b - - 0 29");

Question about(const rules::Position& p, const std::vector<const char*>& moves) {
  Question question{.kind = moves.empty() ? Question::Kind::best : Question::Kind::moves,
                    .position = p};
  for (const char* san : moves) question.moves.push_back(*rules::parse_san(p, san));
  return question;
}

Response answer(const Question& question, int threads, std::uint64_t nodes = 50'000) {
  Responder responder(question, [] {});
  REQUIRE(responder.deepen(nodes, threads));
  return responder.response();
}

}  // namespace

TEST_CASE("a quiet only move is found, and each move measured by it") {
  const rules::Move qb2 = *rules::parse_san(moscow, "Qb2");
  const Response best = answer(about(moscow, {}), 2);
  REQUIRE(best.moments.size() == 1);
  CHECK(best.moments[0].best == qb2);
  CHECK(best.moments[0].kind == study::Kind::only_move);
  CHECK_FALSE(best.moments[0].reasons.empty());

  const Response asked = answer(about(moscow, {"Qb1+", "Qb2"}), 2);
  REQUIRE(asked.moments.size() == 2);
  CHECK(asked.moments[0].kind == study::Kind::swing);
  CHECK(asked.moments[0].best == qb2);
  CHECK(asked.moments[0].cost() > 0.2);
  CHECK(asked.moments[1].kind == study::Kind::only_move);
  CHECK(asked.moments[1].found);
}

TEST_CASE("an answer depends neither on the threads nor on what else is asked") {
  const Response one = answer(about(moscow, {"Qb1+"}), 1),
                 four = answer(about(moscow, {"Qb1+"}), 4);
  REQUIRE(one.moments.size() == 1);
  CHECK(one.moments == four.moments);
  const Response two = answer(about(moscow, {"Qb1+", "Rd1+"}), 4);
  CHECK(one.moments[0].played_score == two.moments[0].played_score);
  CHECK(one.moments[0].refutation == two.moments[0].refutation);
}

TEST_CASE("all moves are ranked, the best first") {
  Question question{.kind = Question::Kind::all, .position = moscow};
  const Response all = answer(question, 2);
  CHECK(all.moments.empty());
  REQUIRE(all.ranked.size() > 30);
  CHECK(all.ranked.front().move == *rules::parse_san(moscow, "Qb2"));
  CHECK(std::is_sorted(all.ranked.begin(), all.ranked.end(),
                       [](const auto& a, const auto& b) { return a.score > b.score; }));
}

TEST_CASE("what is stopped changes nothing, and a search in another thread can be stopped") {
  Responder responder(about(moscow, {"Qb1+"}), [] {});
  REQUIRE(responder.deepen(20'000, 1));
  const Response before = responder.response();
  const std::atomic<bool> stopped{true};
  CHECK_FALSE(responder.deepen(40'000, 1, &stopped));
  CHECK(responder.response().moments == before.moments);

  std::atomic<bool> stop{false};
  {
    const std::jthread thinking([&] {
      for (std::uint64_t nodes = 40'000; responder.deepen(nodes, 2, &stop);) nodes *= 2;
    });
    stop = true;
  }
  CHECK(responder.response().moments.size() == 1);
}

TEST_CASE("a mind has changed where another move is better, or the standing is another") {
  const rules::Move a = rules::Move::normal(rules::a2, rules::a3);
  const rules::Move b = rules::Move::normal(rules::b2, rules::b3);
  const Opinion first{a, 0.5, {0.5}};
  CHECK_FALSE(changes(first, first));
  CHECK_FALSE(changes(first, {b, 0.52, {0.5}}));  // one as good
  CHECK(changes(first, {b, 0.9, {0.5}}));
  CHECK(changes(first, {a, 0.5, {0.05}}));
}

TEST_CASE("a game's only move, a mate and a stalemate are answered") {
  // NN-Greco, c. 1620 (fact sheet, C03): one legal move.
  const auto one =
      *rules::parse_fen("r1b2rk1/pppp1ppp/8/2b1P3/2B3n1/5N2/PP3qPP/RNBQR1K1 w - - 0 12");
  CHECK_FALSE(answer(about(one, {}), 1, 5'000).moments[0].second);
  // A back rank (common practice).
  const auto mate = *rules::parse_fen("6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1");
  const auto mated = answer(about(mate, {"Rd8#"}), 1, 5'000).moments[0];
  REQUIRE_FALSE(mated.reasons.empty());
  CHECK(study::is_mate(mated.reasons.front()));
  // King and pawn against king, the pawn pushed too far (common practice).
  const auto pawn = *rules::parse_fen("4k3/8/3K4/4P3/8/8/8/8 w - - 0 1");
  CHECK(answer(about(pawn, {"Ke6"}), 1, 5'000).moments[0].kind == study::Kind::only_move);
  CHECK(answer(about(pawn, {"e6"}), 1, 5'000).moments[0].kind == study::Kind::swing);
  const auto push = *rules::parse_fen("4k3/4P3/3K4/8/8/8/8/8 w - - 0 1");
  const auto still = answer(about(push, {"Ke6"}), 1, 5'000).moments[0];
  CHECK(still.refutation.empty());
}
