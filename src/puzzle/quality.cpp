// The points were chosen by hand, to say what is worth more than what: a puzzle that fits its
// solvers and has one clear answer comes before all, then what may be said about the wrong answers,
// then the rest.
#include "quality.hpp"

#include <algorithm>
#include <cmath>

#include "kairos/study/expectation.hpp"

namespace kairos::puzzle {

namespace {

constexpr int for_certainty = 40;  // times the gap in expectation
constexpr int for_clear_reward = 12;
constexpr int for_quiet_win = 20;
constexpr int for_each_try = 3;
constexpr int for_tempted = 40;  // times the share of those who would choose a try
// Times what the solve rate is off the fitting ones. Below there is less room than above, and a
// puzzle that nobody finds is a duller evening than one that many do.
constexpr int for_too_hard = -300, for_too_plain = -150;

constexpr int for_same_game = -20, for_same_player = -8;
constexpr int for_same_kind = -4, for_same_motif = -4;
constexpr int for_same_phase = -3, for_same_difficulty = -4;

constexpr int parts = 1000;  // of a whole: shares are counted in these
int in_parts(double share) {
  return static_cast<int>(std::lround(share * parts));
}

int fit(const Puzzle& p, int level) {
  const int rate = in_parts(rate_at(p.solve_rates, level));
  const int least = in_parts(fitting_least), most = in_parts(fitting_most);
  if (rate < least) return for_too_hard * (least - rate) / parts;
  return for_too_plain * std::max(rate - most, 0) / parts;
}

bool has_clear_reward(const Puzzle& p) {
  return p.mate_moves > 0 || p.reward == Reward::material;
}

bool share_a_name(const Traits& a, const Traits& b) {
  const auto is_either = [&b](std::string_view name) {
    return !name.empty() && (name == b.white || name == b.black);
  };
  return is_either(a.white) || is_either(a.black);
}

}  // namespace

int quality(const Puzzle& p, int level) {
  const double gap = study::expectation(p.score) - study::expectation(p.second_score);
  int points = static_cast<int>(gap * for_certainty) + fit(p, level);
  for (const Try& tried : p.tries) {
    points += for_each_try + for_tempted * in_parts(rate_at(tried.shares, level)) / parts;
  }
  if (has_clear_reward(p)) points += for_clear_reward;
  if (p.kind == study::Kind::quiet_win) points += for_quiet_win;
  return points;
}

Traits::Traits(const Puzzle& p)
    : game(p.game),
      white(surname_in(p.game_label, rules::white)),
      black(surname_in(p.game_label, rules::black)),
      kind(p.kind),
      difficulty(p.difficulty),
      motif(p.motifs.empty() ? -1 : static_cast<int>(p.motifs.front())),
      phase(study::phase_of(p.position)) {}

int likeness(const Traits& one, const Traits& other) {
  int points = 0;
  if (one.game == other.game) {
    points += for_same_game;
  } else if (share_a_name(one, other)) {
    points += for_same_player;
  }
  if (one.kind == other.kind) points += for_same_kind;
  if (one.motif >= 0 && one.motif == other.motif) points += for_same_motif;
  if (one.phase == other.phase) points += for_same_phase;
  if (one.difficulty == other.difficulty) points += for_same_difficulty;
  return points;
}

}  // namespace kairos::puzzle
