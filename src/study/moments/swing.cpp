// Swing: the move played costs at least `swing_cost` of expectation.
//
// Both ends of the difference are confirmed by a search of their own (evidence.hpp), and the
// iteration before the last must have seen most of it already. Since it is expectation that counts,
// a won position that stays won is no swing, however many centipawns it lost. Kept with it: what
// the position turned from and to, the better move with its line, the reply that punishes, and
// whether the opponent's reply kept what the error gave.
#include <algorithm>

#include "kairos/study/expectation.hpp"

#include "kinds.hpp"

namespace kairos::study {

namespace {

// The iteration before the last must show this share of the threshold.
constexpr double earlier_share = 0.75;
// The reply punishes when it keeps more than this share of the cost.
constexpr double kept_share = 0.5;

bool seen_before(const Evidence& e, double least) {
  const auto& history = e.verdict.history;
  if (history.size() < 2) return false;
  const double before = expectation(history[history.size() - 2].score);
  return before - expectation(e.played_score) >= least;
}

// With no reply in the game, the result tells: the opponent won, so nothing was given back.
bool won_by_opponent(const Scoresheet& sheet, const Evidence& e) {
  return sheet.facts.result == (e.position.side_to_move() == rules::white ? "0-1" : "1-0");
}

bool is_punished(const Scoresheet& sheet, const Evidence& e, const Settings& s,
                 search::Searcher& searcher, std::uint64_t& nodes) {
  const int next = e.ply + 1;
  const rules::Move reply = sheet.move_at(next);
  if (!reply) return won_by_opponent(sheet, e);
  if (!e.refutation.empty() && reply == e.refutation.front()) return true;
  const MoveVerdict j =
      search_move(sheet.positions[static_cast<std::size_t>(next)], sheet.keys_before(next), reply,
                  s.effort.verify_nodes / 2, searcher);
  nodes += j.nodes;
  const double kept = e.best_expectation() - (1 - expectation(j.score));
  return kept > kept_share * e.cost();
}

}  // namespace

double swing_hint(const SurveyedPly& g, const Settings& s) {
  if (!g.played()) return 0;
  const double cost = surveyed_cost(g.note());
  return cost >= s.candidate_share * s.swing_cost ? cost : 0;
}

std::optional<Moment> find_swing(const Scoresheet& sheet, const Evidence& e, const Settings& s,
                                 search::Searcher& searcher) {
  if (!e.erred_by(s.swing_cost)) return std::nullopt;
  if (!seen_before(e, earlier_share * s.swing_cost)) return std::nullopt;
  Moment m = moment_of(e, Kind::swing);
  m.punished = is_punished(sheet, e, s, searcher, m.nodes);
  return m;
}

}  // namespace kairos::study
