#include "kairos/report/turning_points.hpp"

#include <algorithm>
#include <array>

#include "kairos/study/expectation.hpp"

namespace kairos::report {

namespace {

using study::Kind;
using study::Moment;

// What happened comes before what could have been done; a claim alone leads nothing.
int place_of(Kind kind) {
  constexpr std::array<Kind, study::kind_count> order = {
      Kind::ended_early, Kind::swing, Kind::slide, Kind::turn, Kind::only_move,
      Kind::quiet_win,   Kind::trap,  Kind::claim, Kind::slip};
  return static_cast<int>(std::find(order.begin(), order.end(), kind) - order.begin());
}

struct Weight {
  bool lost = false;  // something was given away
  double size = 0;    // of expectation
  bool bare = false;
};

Weight weight_of(const TurningPoint& point) {
  Weight weight;
  for (const Moment* const m : point.moments) {
    const bool lost = tells_fall(*m);
    const Fall fall = fall_of(*m);
    const double size = lost ? fall.from - fall.to : stake(*m);
    if (lost < weight.lost) continue;
    weight.size = lost == weight.lost ? std::max(weight.size, size) : size;
    weight.lost = lost;
  }
  weight.bare = is_bare(point);
  return weight;
}

void rank(std::vector<TurningPoint>& points) {
  std::vector<std::pair<Weight, std::size_t>> order;
  for (std::size_t i = 0; i < points.size(); ++i) order.emplace_back(weight_of(points[i]), i);
  std::stable_sort(order.begin(), order.end(), [](const auto& a, const auto& b) {
    if (a.first.lost != b.first.lost) return a.first.lost;
    if (a.first.bare != b.first.bare) return b.first.bare;
    return a.first.size > b.first.size;
  });
  int rank = 0;
  for (const auto& [weight, index] : order) points[index].rank = ++rank;
}

}  // namespace

const Moment* TurningPoint::find(Kind kind) const {
  const auto found = std::find_if(moments.begin(), moments.end(),
                                  [kind](const Moment* m) { return m->kind == kind; });
  return found == moments.end() ? nullptr : *found;
}

std::vector<TurningPoint> turning_points(const study::Study& study) {
  std::vector<TurningPoint> points;
  for (const Moment& moment : study.moments) {
    if (moment.kind == Kind::claim) continue;
    if (points.empty() || points.back().ply != moment.ply) {
      points.push_back({moment.ply, {}, static_cast<int>(points.size()) + 1, 0});
    }
    points.back().moments.push_back(&moment);
  }
  for (TurningPoint& point : points) {
    std::stable_sort(
        point.moments.begin(), point.moments.end(),
        [](const Moment* a, const Moment* b) { return place_of(a->kind) < place_of(b->kind); });
  }
  rank(points);
  return points;
}

bool is_bare(const TurningPoint& point) {
  return std::ranges::all_of(point.moments, [](const Moment* m) {
    const bool explained = std::ranges::any_of(m->reasons, [](const study::Reason& reason) {
      return reason.kind != study::ReasonKind::motif;
    });
    return m->kind != Kind::ended_early && !tells_fall(*m) && !explained;
  });
}

TurningPoint alone(const Moment& moment) {
  return {moment.ply, {&moment}, 1, 1};
}

const TurningPoint* decisive_point(std::span<const TurningPoint> points) {
  for (const TurningPoint& point : points) {
    if (point.rank == 1) return point.lead().kind == Kind::trap ? nullptr : &point;
  }
  return nullptr;
}

Fall fall_of(const Moment& moment) {
  if (moment.steps.empty()) return {moment.best_expectation(), moment.played_expectation()};
  return {study::expectation(moment.steps.front().best_score),
          study::expectation(moment.steps.back().played_score)};
}

bool tells_fall(const Moment& moment) {
  // Half a point in a hundred would be printed as no change at all.
  constexpr double seen = 0.005;
  const bool played = moment.kind != Kind::trap && moment.kind != Kind::claim;
  return played && moment.cost() > seen;
}

double stake(const Moment& moment) {
  return std::max(0.0, moment.best_expectation() - study::expectation(moment.second_score));
}

}  // namespace kairos::report
