// What a first look leaves possible: a moment whose threshold it comes near enough to.
#include "kairos/study/expectation.hpp"

#include "kinds.hpp"

namespace kairos::study {

namespace {

// A first look is off by as much, now and then.
constexpr double slack = 0.12;
// Of a quiet win, which is about a gap of 0.10 at the least.
constexpr double quiet_gap = 0.05;

bool may_be_quiet_win(const Evidence& e, const Settings& s) {
  return !e.position.in_check() && is_quiet(e.position, e.best) && e.best_score > 0 &&
         expectation(e.second_score) <= s.decided && e.gap() >= quiet_gap;
}

}  // namespace

bool may_hold_moment(const Evidence& e, const Settings& s) {
  if (!e.played) return true;  // how the game ended
  if (e.cost() >= s.swing_cost - slack) return true;
  if (e.legal_moves < 2) return false;
  const bool may_be_only = e.best_expectation() >= s.only_move_least - slack &&
                           e.gap() >= s.only_move_gap - slack;
  return may_be_only || may_be_quiet_win(e, s);
}

}  // namespace kairos::study
