// Shares: what they must do whatever the weights, and a few positions whose answer a player knows.
#include "kairos/people/shares.hpp"

#include <catch2/catch.hpp>
#include <numeric>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "model.hpp"

using namespace kairos;
using people::Judged;

namespace {

rules::Position position(const char* fen) {
  return rules::parse_fen(fen).value();
}

rules::Move move(const rules::Position& p, const char* san) {
  return rules::read_san(p, san).move;
}

// All legal moves, worth as much as one another.
std::vector<Judged> judged_alike(const rules::Position& p, double expectation) {
  rules::MoveList legal;
  rules::legal_moves(p, legal);
  std::vector<Judged> judged;
  for (const rules::Move m : legal) judged.push_back({m, expectation, expectation, expectation});
  return judged;
}

Judged& find(std::vector<Judged>& judged, rules::Move m) {
  return *std::ranges::find(judged, m, &Judged::move);
}

double share(const rules::Position& p, const people::Before& before, const std::vector<Judged>& j,
             rules::Move m, int rating) {
  return people::share_of(m, j, people::shares(p, before, j, rating));
}

constexpr const char* fens[] = {
    "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
    // Kiwipete: the published perft set (tests/perft)
    "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
    "8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1",
    "r2q1rk1/pP1p2pp/Q4n2/bbp1p3/Np6/1B3NBn/pPPP1PPP/R3K2R b KQ - 0 1",
};

}  // namespace

TEST_CASE("shares are those of all moves and add up to 1 at any rating") {
  for (const char* fen : fens) {
    const rules::Position p = position(fen);
    std::vector<Judged> judged = judged_alike(p, 0.5);
    for (std::size_t i = 0; i < judged.size(); ++i) {  // as unlike as can be
      judged[i].in_the_end = i % 3 == 0 ? 0 : i % 3 == 1 ? 1 : 0.5;
      judged[i].at_a_glance = i % 2 == 0 ? 0 : 1;
    }
    for (const int rating : {-5, 0, 1200, 1700, 2000, 2400, 2850, 9999}) {
      const people::Shares shares = people::shares(p, {}, judged, rating);
      REQUIRE(shares.of.size() == judged.size());
      CHECK(std::accumulate(shares.of.begin(), shares.of.end(), 0.0) == Approx(1).epsilon(1e-12));
      for (const double s : shares.of) CHECK((s >= 0 && s <= 1));
    }
  }
}

TEST_CASE("a position without a legal move has no shares") {
  const rules::Position mated = position("R5k1/5ppp/8/8/8/8/8/6K1 b - - 0 1");
  CHECK(people::shares(mated, {}, {}, 2000).of.empty());
}

TEST_CASE("the more a move is worth, at whichever look, the more players play it") {
  for (const char* fen : fens) {
    const rules::Position p = position(fen);
    for (const auto look : {&Judged::in_the_end, &Judged::soon, &Judged::at_a_glance}) {
      for (const int rating : {1500, 2000, 2700}) {
        std::vector<Judged> judged = judged_alike(p, 0.5);
        double before = 0;
        for (double e = 0; e <= 1.0001; e += 0.05) {
          judged.front().*look = std::min(e, 1.0);
          const double s = share(p, {}, judged, judged.front().move, rating);
          CHECK(s >= before - 1e-12);
          before = s;
        }
        judged.front().*look = 0;
        CHECK(share(p, {}, judged, judged.front().move, rating) < before);
      }
    }
  }
}

TEST_CASE("a queen that has just left itself to be taken is taken") {
  const rules::Position p =
      position("r1bqkb1r/pppp1ppp/2n5/3np3/4Q3/5N2/PPPP1PPP/RNB1KB1R b KQkq - 0 5");
  const rules::Position hangs =
      position("r1bqkb1r/pppp1ppp/2n2n2/4p3/4Q3/5N2/PPPP1PPP/RNB1KB1R b KQkq - 0 5");
  const rules::Move takes = move(hangs, "Nxe4");
  std::vector<Judged> judged = judged_alike(hangs, 0.3);
  Judged& best = find(judged, takes);
  best.at_a_glance = best.soon = best.in_the_end = 0.99;
  const people::Before before{rules::Move::normal(rules::e2, rules::e4), true, {}};
  for (const int rating : {1700, 2000, 2700}) {
    CHECK(share(hangs, before, judged, takes, rating) > 0.9);
  }
  // The same worth without a capture: fewer see it.
  std::vector<Judged> quiet = judged_alike(p, 0.3);
  Judged& steps_back = find(quiet, move(p, "Nb6"));
  steps_back.at_a_glance = steps_back.soon = steps_back.in_the_end = 0.99;
  CHECK(share(p, {}, quiet, steps_back.move, 2000) < share(hangs, before, judged, takes, 2000));
}

TEST_CASE("an only move that no short look likes is found by more of the strong players") {
  // Kiwipete's men; the verdicts are made up.
  const rules::Position p = position(fens[1]);
  std::vector<Judged> judged = judged_alike(p, 0.4);
  Judged& deep = find(judged, move(p, "Nxg6"));
  deep.at_a_glance = 0.15;
  deep.soon = 0.2;
  deep.in_the_end = 0.9;
  double before = 0;
  for (const int rating : {1700, 2000, 2300, 2600, 2800}) {
    const double s = share(p, {}, judged, deep.move, rating);
    CHECK(s > before);
    before = s;
  }
  std::vector<Judged> plain = judged;
  find(plain, deep.move).at_a_glance = find(plain, deep.move).soon = 0.9;
  CHECK(share(p, {}, plain, deep.move, 2000) > share(p, {}, judged, deep.move, 2000));
}

TEST_CASE("beyond the ratings of the games it says that it extrapolates") {
  const rules::Position p = position(fens[0]);
  const std::vector<Judged> judged = judged_alike(p, 0.5);
  const auto extrapolates = [&](int rating) {
    return people::shares(p, {}, judged, rating).extrapolated;
  };
  CHECK(extrapolates(1000));
  CHECK(extrapolates(1699));
  CHECK_FALSE(extrapolates(1700));
  CHECK_FALSE(extrapolates(2850));
  CHECK(extrapolates(2851));
}

TEST_CASE("shares are the same to the bit when asked again") {
  for (const char* fen : fens) {
    const rules::Position p = position(fen);
    std::vector<Judged> judged = judged_alike(p, 0.5);
    judged.front().in_the_end = 0.7;
    CHECK(people::shares(p, {}, judged, 1911).of == people::shares(p, {}, judged, 1911).of);
  }
}

TEST_CASE("weights of costs are never positive") {
  for (std::size_t i = 0; i < people::term_count; ++i) {
    INFO(people::terms[i].name);
    for (const people::TwoEnds& ends : people::fitted_weights()[i].of) {
      for (const double end : ends) {
        CHECK((people::terms[i].sign != people::Sign::cost || end <= 0));
      }
    }
  }
}

TEST_CASE("a mixture is sharpened by a power that goes with its greatest share") {
  const std::vector<double> shares = {0.5, 0.3, 0.2};
  // At the greatest share of 0.5 the power is 2: squares 0.25, 0.09 and 0.04 of 0.38.
  const auto squared = people::sharpened(shares, {3, -2});
  CHECK(squared[0] == Approx(0.25 / 0.38));
  CHECK(squared[1] == Approx(0.09 / 0.38));
  CHECK(squared[2] == Approx(0.04 / 0.38));
  const auto same = people::sharpened(shares, {});
  for (std::size_t i = 0; i < shares.size(); ++i) CHECK(same[i] == Approx(shares[i]));
  CHECK(people::sharpened({}, {3, -2}).empty());
  CHECK(people::sharpened({1, 0}, {1, 0})[1] < 1e-6);  // a share of nothing has no logarithm
}

TEST_CASE("every rating lies between two of those that parts are given at") {
  for (int rating = 1000; rating <= 3000; rating += 50) {
    const people::Nearness nearness = people::nearness_of(rating);
    CHECK(std::accumulate(nearness.begin(), nearness.end(), 0.0) == Approx(1));
  }
}
