#include "kairos/study/expectation.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "kairos/study/moment.hpp"

using namespace kairos;
using study::expectation;

TEST_CASE("the expectation grows with every centipawn inside the table and never falls") {
  for (int score = -2100; score < 2100; ++score) {
    INFO(score);
    if (score >= -2000 && score < 2000) {
      CHECK(expectation(score) < expectation(score + 1));
    } else {
      CHECK(expectation(score) <= expectation(score + 1));
    }
  }
}

TEST_CASE("the expectations of the two sides add up to one") {
  for (int score = 0; score <= 20000; score += 7) {
    INFO(score);
    CHECK(expectation(score) + expectation(-score) == 1.0);
  }
  CHECK(expectation(0) == 0.5);
}

TEST_CASE("the table is the logistic curve") {
  // The scale is read off the table itself; the shape must be e / (1 - e) = exp(score / scale).
  const double scale = 100 / std::log(expectation(100) / expectation(-100));
  for (int score = 1; score <= 1000; ++score) {
    const double exact = 1 / (1 + std::exp(-score / scale));
    INFO(score);
    CHECK(std::abs(expectation(score) - exact) < 1e-12);
  }
}

TEST_CASE("a mate is certain and no other score is") {
  CHECK(expectation(search::mate_in_plies(1)) == 1.0);
  CHECK(expectation(search::mated_in_plies(30)) == 0.0);
  CHECK(expectation(search::max_evaluation) < 1.0);
  CHECK(expectation(-search::max_evaluation) > 0.0);
}

TEST_CASE("standings are even-handed: what is won for one side is lost for the other") {
  using study::Standing;
  const auto turned = [](Standing s) {
    return static_cast<Standing>(static_cast<int>(Standing::won) - static_cast<int>(s));
  };
  for (int score = -1500; score <= 1500; ++score) {
    INFO(score);
    CHECK(study::standing_of(expectation(score)) ==
          turned(study::standing_of(expectation(-score))));
  }
  CHECK(study::standing_of(0.5) == study::Standing::level);
  CHECK(study::standing_of(1.0) == study::Standing::won);
}

TEST_CASE("the cost of a move is never below zero") {
  study::Moment m;
  m.best_score = 10;
  m.played_score = 40;
  CHECK(m.cost() == 0);
  m.played_score = -300;
  CHECK(m.cost() == Approx(m.best_expectation() - m.played_expectation()));
}
