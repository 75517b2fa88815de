// Turning points: what is told of one place is told once, and in the order of what mattered.
#include "kairos/report/turning_points.hpp"

#include <catch2/catch.hpp>

#include "kairos/study/expectation.hpp"

#include "support/report_fakes.hpp"

using namespace kairos;
using report::TurningPoint;
using study::Kind;
using study::Moment;

namespace {

constexpr search::Score won = 400, better = 120, level = 0, worse = -150, lost = -500;

struct Told {
  Kind kind;
  int ply;
  search::Score best, played, second;
};

// Moments of a game of eight half-moves, from the side to move at each.
study::Study study_with(const std::vector<Told>& told) {
  study::Study study;
  study.moves = test::moves_of(study.start, "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6");
  for (const Told& t : told) {
    Moment& m = study.moments.emplace_back();
    const auto ply = static_cast<std::size_t>(t.ply);
    m.kind = t.kind;
    m.ply = t.ply;
    m.position = study::position_after(study, ply);
    if (ply < study.moves.size()) m.played = study.moves[ply];
    m.best_score = t.best;
    m.played_score = t.played;
    m.second_score = t.second;
  }
  return study;
}

std::vector<int> ranks(const std::vector<TurningPoint>& points) {
  std::vector<int> all;
  for (const TurningPoint& point : points) all.push_back(point.rank);
  return all;
}

}  // namespace

TEST_CASE("the moments of one place are one point, and what happened leads it") {
  // Told as a swing, an only move and a quiet win one after another (class 7 of the findings).
  const study::Study study = study_with({{Kind::only_move, 2, won, level, worse},
                                         {Kind::quiet_win, 2, won, level, worse},
                                         {Kind::swing, 2, won, level, worse},
                                         {Kind::trap, 4, better, better, level}});
  const auto points = report::turning_points(study);
  REQUIRE(points.size() == 2);
  CHECK(points[0].moments.size() == 3);
  CHECK(points[0].lead().kind == Kind::swing);
  CHECK(points[0].find(Kind::quiet_win) == &study.moments[1]);
  CHECK(points[0].find(Kind::trap) == nullptr);
  CHECK(points[0].number == 1);
  CHECK(points[1].number == 2);
}

TEST_CASE("claims are about the notes and belong to no point") {
  const study::Study study =
      study_with({{Kind::claim, 2, won, lost, worse}, {Kind::swing, 3, won, level, worse}});
  const auto points = report::turning_points(study);
  REQUIRE(points.size() == 1);
  CHECK(points[0].ply == 3);
}

TEST_CASE("what was given away ranks before what was found, and each by its size") {
  const study::Study study = study_with({{Kind::only_move, 0, won, won, lost},
                                         {Kind::swing, 1, better, worse, worse},
                                         {Kind::swing, 2, won, lost, lost},
                                         {Kind::trap, 3, better, better, level},
                                         {Kind::ended_early, 8, won, lost, level}});
  CHECK(ranks(report::turning_points(study)) == std::vector<int>{4, 3, 1, 5, 2});
}

TEST_CASE("of what was found what is explained ranks before what is bare") {
  study::Study study = study_with({{Kind::only_move, 0, won, won, lost},
                                   {Kind::only_move, 2, better, better, level},
                                   {Kind::swing, 5, better, worse, worse}});
  study.moments[1].reasons.emplace_back().kind = study::ReasonKind::seventh_rank;
  study.moments[0].reasons.emplace_back().kind = study::ReasonKind::motif;
  const auto points = report::turning_points(study);
  CHECK(ranks(points) == std::vector<int>{3, 2, 1});
  CHECK(report::is_bare(points[0]));
  CHECK_FALSE(report::is_bare(points[1]));
  CHECK_FALSE(report::is_bare(points[2]));
}

TEST_CASE("of equal weight the earlier ranks first") {
  const study::Study study =
      study_with({{Kind::swing, 1, won, level, level}, {Kind::swing, 4, won, level, level}});
  CHECK(ranks(report::turning_points(study)) == std::vector<int>{1, 2});
}

TEST_CASE("a slide weighs what it cost from its first move to its last") {
  study::Study study =
      study_with({{Kind::slide, 2, level, worse, worse}, {Kind::swing, 5, better, level, level}});
  Moment& slide = study.moments[0];
  slide.steps = {{2, slide.position, slide.played, better, level},
                 {4, slide.position, slide.played, level, lost}};
  CHECK(report::fall_of(slide).to == study::expectation(lost));
  CHECK(ranks(report::turning_points(study)) == std::vector<int>{1, 2});
}

TEST_CASE("no point is decisive where nobody walked into the trap") {
  const auto only_trap = study_with({{Kind::trap, 3, better, better, level}});
  const auto points = report::turning_points(only_trap);
  CHECK(report::decisive_point(points) == nullptr);
  const auto both = study_with(
      {{Kind::trap, 3, better, better, lost}, {Kind::only_move, 5, better, better, level}});
  const auto two = report::turning_points(both);
  CHECK(report::decisive_point({}) == nullptr);
  REQUIRE(two.size() == 2);
}
