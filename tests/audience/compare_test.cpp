#include "kairos/audience/compare.hpp"

#include <catch2/catch.hpp>

#include "kairos/rules/fen.hpp"

using namespace kairos;
using namespace kairos::audience;

namespace {

// A back rank (common practice); with any other move White is lost, three knights to a rook.
const rules::Position back_rank = *rules::parse_fen("6k1/5ppp/8/8/8/2nnn3/5PPP/R5K1 w - - 0 1");
const rules::Move ra8 = rules::Move::normal(rules::a1, rules::a8);
const rules::Move ra7 = rules::Move::normal(rules::a1, rules::a7);
const rules::Move h3 = rules::Move::normal(rules::h2, rules::h3);

std::vector<study::Weighed> weighed(const std::vector<rules::Move>& moves, int threads) {
  Comparer comparer(back_rank, {}, moves, {}, Comparer::Best::search, [] {});
  REQUIRE(comparer.deepen(2'000, threads));
  return comparer.weighed();
}

}  // namespace

TEST_CASE("the best move is found though nobody has called it, and the called ones cost") {
  Comparer comparer(back_rank, {}, {ra7, h3}, {}, Comparer::Best::search, [] {});
  REQUIRE(comparer.deepen(2'000, 1));
  const Comparison comparison = comparer.comparison({{.move = ra7}, {.move = h3}});
  CHECK(comparison.best.move == ra8);
  REQUIRE(comparison.weighed.size() == 2);
  CHECK(comparison.weighed[0].move == ra7);
  CHECK_FALSE(comparison.weighed[0].is_good);
  CHECK(comparison.weighed[0].cost > 0);
  CHECK(comparer.nodes() > 0);
}

TEST_CASE("what is said of a move depends neither on the others nor on the threads") {
  const auto alone = weighed({ra7}, 1), both = weighed({ra8, ra7}, 2);
  CHECK(alone[0].score == both[1].score);
  CHECK(alone[0].line == both[1].line);
  CHECK(both[0].is_good);
}

TEST_CASE("a comparison that is stopped changes nothing") {
  Comparer comparer(back_rank, {}, {ra7}, {}, Comparer::Best::search, [] {});
  REQUIRE(comparer.deepen(2'000, 1));
  const auto before = comparer.weighed();
  const std::atomic<bool> stop{true};
  CHECK_FALSE(comparer.deepen(4'000, 1, &stop));
  const auto after = comparer.weighed();
  CHECK(after[0].score == before[0].score);
  CHECK(after[0].line == before[0].line);
}

TEST_CASE("called moves are taken from several words or phrases, refused ones among them") {
  const auto called = called_moves(back_rank, {"rook", "a7", "h3", "Ra9"}, rules::Letters::english);
  REQUIRE(called.ok());
  REQUIRE(called->size() >= 2);
  CHECK(called->at(0).move == ra7);
  CHECK(called->at(1).move == h3);
  CHECK_FALSE(called_moves(back_rank, {"nonsense"}, rules::Letters::english).ok());
}
