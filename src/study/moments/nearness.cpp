// How near the evidence comes to a moment: what a first look leaves possible, and what a close look
// leaves open.
#include "kairos/study/expectation.hpp"

#include "kinds.hpp"

namespace kairos::study {

namespace {

// A first look is off by as much, now and then.
constexpr double slack = 0.12;
// What the survey calls an error so large is looked at closely whatever a first look says: that
// learns from the same table, and may overlook the same move.
constexpr double seen_by_survey = 0.10;
// Of a quiet win, which is about a gap of 0.10 at the least.
constexpr double quiet_gap = 0.05;
// A cost or a gap so near its threshold is a close call: all is searched again with more nodes, and
// once more where it is a cost, for to call a move an error takes more than to praise one. What
// would be an error is searched again once, however far it lies above the threshold. What lies
// below would not be told: there less is close.
constexpr double close_call = 0.10;
constexpr double close_below = 0.06;

bool may_be_only_move(const Study& study, const Evidence& e, const Settings& s, double within) {
  return e.legal_moves >= 2 && e.best_expectation() >= s.only_move_least - within &&
         e.gap() >= s.only_move_gap - within && !is_plain_only_move(study, e, s);
}

bool may_be_quiet_win(const Evidence& e, const Settings& s) {
  if (e.legal_moves < 2 || !is_quiet(e.position, e.best)) return false;
  if (mates_alone(e)) return true;
  return e.best_score > 0 && expectation(e.second_score) <= s.decided && e.gap() >= quiet_gap;
}

bool cost_is_near(const Evidence& e, const Settings& s) {
  const double above = e.cost() - s.swing_cost;
  return e.played && e.played != e.best && above < close_call && above > -close_below;
}

}  // namespace

bool may_hold_moment(const Study& study, const Evidence& e, const Settings& s) {
  if (!e.played) return true;  // how the game ended
  if (surveyed_cost(study.notes[static_cast<std::size_t>(e.ply)]) >= seen_by_survey) return true;
  return e.cost() >= s.swing_cost - slack || may_be_only_move(study, e, s, slack) ||
         may_be_quiet_win(e, s);
}

bool is_close_call(const Study& study, const Evidence& e, const Settings& s) {
  return e.erred_by(s.swing_cost) || cost_is_near(e, s) ||
         (e.gap() < s.only_move_gap + close_call && may_be_only_move(study, e, s, close_call));
}

bool is_closer_call(const Evidence& e, const Settings& s) {
  return cost_is_near(e, s);
}

}  // namespace kairos::study
