// Slides and turns by their definition (top of src/study/told.cpp), on studies put together by
// hand.
#include "kairos/study/told.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "kairos/study/expectation.hpp"

using namespace kairos;
using study::Kind;
using study::Moment;

namespace {

// The score whose expectation is nearest above.
search::Score score_of(double wanted) {
  search::Score score = -2000;
  while (study::expectation(score) < wanted) ++score;
  return score;
}

// The move at a ply takes its side from one expectation to another. White moves at even plies.
Moment lost(Kind kind, int ply, double from, double to) {
  Moment m;
  m.kind = kind;
  m.ply = ply;
  if (ply % 2 != 0) m.position.play(rules::Move::normal(rules::e2, rules::e4));
  m.played = rules::Move::normal(rules::a2, rules::a3);
  m.best = rules::Move::normal(rules::b2, rules::b3);
  m.best_score = score_of(from);
  m.played_score = score_of(to);
  return m;
}

study::Study told(std::vector<Moment> moments, const std::string& result = "1/2-1/2") {
  study::Study study;
  study.facts.result = result;
  study.moments = std::move(moments);
  study::tell(study);
  return study;
}

std::vector<std::pair<Kind, int>> kinds(const study::Study& study) {
  std::vector<std::pair<Kind, int>> list;
  for (const Moment& m : study.moments) list.emplace_back(m.kind, m.ply);
  return list;
}
using Kinds = std::vector<std::pair<Kind, int>>;

}  // namespace

TEST_CASE("slips that cost 0.30 together are one slide, told at the costliest") {
  const auto study = told({lost(Kind::slip, 20, 0.50, 0.40), lost(Kind::slip, 24, 0.42, 0.28),
                           lost(Kind::slip, 30, 0.29, 0.19)});
  REQUIRE(kinds(study) == Kinds{{Kind::slide, 24}});
  const Moment& slide = study.moments.front();
  REQUIRE(slide.steps.size() == 3);
  CHECK(slide.steps[0].ply == 20);
  CHECK(slide.steps[2].ply == 30);
  CHECK(study::expectation(slide.steps[0].best_score) == Approx(0.50).margin(0.01));
}

TEST_CASE("less than 0.30, or further apart than ten moves, is no slide") {
  CHECK(told({lost(Kind::slip, 20, 0.50, 0.36), lost(Kind::slip, 24, 0.36, 0.22)}).moments.empty());
  CHECK(told({lost(Kind::slip, 20, 0.50, 0.34), lost(Kind::slip, 40, 0.50, 0.34)}).moments.empty());
  CHECK(kinds(told({lost(Kind::slip, 20, 0.50, 0.34), lost(Kind::slip, 38, 0.50, 0.34)})).size() ==
        1);
  CHECK(told({lost(Kind::slip, 20, 0.60, 0.29)}).moments.empty());  // one move alone
}

TEST_CASE("what the opponent gives back in time makes it no slide") {
  const std::vector<Moment> slips = {lost(Kind::slip, 20, 0.50, 0.34),
                                     lost(Kind::slip, 26, 0.45, 0.29)};
  const auto with = [&](int ply, double cost) {
    std::vector<Moment> all = slips;
    all.push_back(lost(Kind::slip, ply, 0.60, 0.60 - cost));
    return told(all).moments.size();
  };
  CHECK(with(23, 0.13) == 0);
  CHECK(with(27, 0.13) == 0);  // the answer to the last
  CHECK(with(29, 0.13) == 1);
  CHECK(with(23, 0.08) == 1);
}

TEST_CASE("a swing between them tells the story alone") {
  const auto study = told({lost(Kind::slip, 20, 0.60, 0.42), lost(Kind::swing, 22, 0.45, 0.15),
                           lost(Kind::slip, 24, 0.20, 0.05)});
  CHECK(kinds(study) == Kinds{{Kind::swing, 22}});
}

TEST_CASE("of windows that overlap the costliest is told") {
  const auto study = told({lost(Kind::slip, 10, 0.65, 0.50), lost(Kind::slip, 26, 0.50, 0.34),
                           lost(Kind::slip, 30, 0.34, 0.09)});
  REQUIRE(kinds(study) == Kinds{{Kind::slide, 30}});
  CHECK(study.moments.front().steps.size() == 2);
}

TEST_CASE("both sides may slide in one game") {
  const auto study = told({lost(Kind::slip, 10, 0.65, 0.50), lost(Kind::slip, 14, 0.50, 0.34),
                           lost(Kind::slip, 41, 0.70, 0.54), lost(Kind::slip, 45, 0.54, 0.38)});
  CHECK(kinds(study) == Kinds{{Kind::slide, 14}, {Kind::slide, 41}});
}

TEST_CASE("the turn of a won game is the loser's costliest slip, where nothing else tells") {
  const std::vector<Moment> slips = {lost(Kind::slip, 20, 0.50, 0.39),
                                     lost(Kind::slip, 21, 0.60, 0.40),
                                     lost(Kind::slip, 60, 0.40, 0.27)};
  CHECK(kinds(told(slips, "0-1")) == Kinds{{Kind::turn, 60}});
  CHECK(kinds(told(slips, "1-0")) == Kinds{{Kind::turn, 21}});
  CHECK(told(slips, "1/2-1/2").moments.empty());
  CHECK(told(slips, "*").moments.empty());
  std::vector<Moment> more = slips;
  more.push_back(lost(Kind::swing, 70, 0.40, 0.10));
  CHECK(kinds(told(more, "0-1")) == Kinds{{Kind::swing, 70}});
  CHECK(told({lost(Kind::slip, 20, 0.50, 0.42)}, "0-1").moments.empty());  // too little
  CHECK(told({lost(Kind::slip, 20, 0.85, 0.72)}, "0-1").moments.empty());  // still better
}

TEST_CASE("what leads a slide or is a turn needs its reasons, a smaller slip does not") {
  CHECK_FALSE(study::needs_reasons(lost(Kind::slip, 20, 0.50, 0.435)));
  CHECK(study::needs_reasons(lost(Kind::swing, 20, 0.50, 0.28)));
  // The smallest that leads: four steps alike.
  const auto slide = told({lost(Kind::slip, 20, 0.80, 0.72), lost(Kind::slip, 22, 0.72, 0.64),
                           lost(Kind::slip, 24, 0.64, 0.56), lost(Kind::slip, 26, 0.56, 0.48)});
  REQUIRE(kinds(slide).size() == 1);
  for (const Moment& m : slide.moments) {
    Moment as_verified = m;
    as_verified.kind = Kind::slip;
    CHECK(study::needs_reasons(as_verified));
  }
  const auto turn = told({lost(Kind::slip, 20, 0.50, 0.39)}, "0-1");
  REQUIRE(kinds(turn) == Kinds{{Kind::turn, 20}});
  CHECK(study::needs_reasons(lost(Kind::slip, 20, 0.50, 0.39)));
}

TEST_CASE("a forfeit has no turn") {
  study::Study study;
  study.facts.result = "0-1";
  study.facts.termination = "Rules infraction";
  study.moments = {lost(Kind::slip, 20, 0.50, 0.39)};
  study::tell(study);
  CHECK(study.moments.empty());
}

TEST_CASE("a move that cost most of it is no step of a slide, and five moves are too many") {
  CHECK(told({lost(Kind::slip, 20, 0.60, 0.51), lost(Kind::slip, 24, 0.51, 0.26)}).moments.empty());
  CHECK(told({lost(Kind::slip, 20, 0.60, 0.50), lost(Kind::slip, 24, 0.50, 0.29)}).moments.size() ==
        1);
  std::vector<Moment> steps;
  for (int i = 0; i < 5; ++i) {
    steps.push_back(lost(Kind::slip, 20 + 4 * i, 0.60 - 0.065 * i, 0.535 - 0.065 * i));
  }
  CHECK(told(steps).moments.empty());
}

TEST_CASE("what comes back later was not lost there") {
  // By the survey the side of the slips, White, stands so from a ply on, level before.
  const auto with = [](std::vector<Moment> slips, std::size_t from, std::size_t to, double back) {
    study::Study study;
    study.facts.result = "0-1";
    study.notes.resize(100);
    for (std::size_t ply = 0; ply < 100; ++ply) {
      const double of_white = ply <= 20 ? 0.50 : ply >= from && ply < to ? back : 0.15;
      search::Line line;
      line.score = score_of(ply % 2 == 0 ? of_white : 1 - of_white);
      study.notes[ply].lines = {line};
    }
    study.moments = std::move(slips);
    study::tell(study);
    return kinds(study);
  };
  const Moment slip = lost(Kind::slip, 20, 0.50, 0.34);
  CHECK(with({slip}, 60, 70, 0.30) == Kinds{{Kind::turn, 20}});
  CHECK(with({slip}, 60, 70, 0.45).empty());
  CHECK(with({slip}, 60, 61, 0.45) == Kinds{{Kind::turn, 20}});  // at one place alone
  const Moment other = lost(Kind::slip, 26, 0.36, 0.18);
  CHECK(with({slip, other}, 36, 40, 0.30) == Kinds{{Kind::slide, 26}});
  CHECK(with({slip, other}, 36, 40, 0.45).empty());
  CHECK(with({slip, other}, 50, 60, 0.45) == Kinds{{Kind::slide, 26}});  // another story
}

TEST_CASE("moments come by ply and kind, without slips") {
  const auto study = told({lost(Kind::trap, 30, 0.5, 0.5), lost(Kind::swing, 10, 0.6, 0.3),
                           lost(Kind::slip, 12, 0.3, 0.2), lost(Kind::only_move, 10, 0.5, 0.5)});
  CHECK(kinds(study) == Kinds{{Kind::swing, 10}, {Kind::only_move, 10}, {Kind::trap, 30}});
}
