// Only move: at least two legal moves, the best keeps an expectation of at least `only_move_least`,
// and the second best is at least `only_move_gap` behind.
//
// Told whether it was found or missed, but not when it is plain:
//   - the recapture of what was just taken, or the only legal move;
//   - in check: a move that takes the man that gives check, or the only one that does not simply
//     hang a man (every other legal move loses material by counting the exchange);
//   - a move that a glance (search_move.hpp) names first, if it is a capture or promotion that
//     loses nothing by counting the exchange, or takes a man away that hangs: nobody overlooks it;
//   - found, and mate at once;
//   - found, and a link in a chain: the only move two plies earlier was found too and its line
//     foretold this one.
// Nor in a decided position: where even the second best wins, there is no only move.
#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/study/expectation.hpp"

#include "kinds.hpp"
#include "played_line.hpp"

namespace kairos::study {

namespace {

// The iteration before the last must show this share of the gap.
constexpr double earlier_share = 0.75;
// Exchanges that lose more than this hang a man.
constexpr search::Score hangs_below = -100;

bool is_plain_evasion(const Evidence& e) {
  if (!e.position.in_check()) return false;
  if (rules::contains(e.position.checkers(), e.best.to())) return true;
  rules::MoveList moves;
  rules::legal_moves(e.position, moves);
  return std::none_of(moves.begin(), moves.end(), [&](rules::Move m) {
    return m != e.best && search::exchange_value(e.position, m) >= hangs_below;
  });
}

bool is_plain(const Evidence& e) {
  if (e.last && takes_back(e.before, e.last, e.best)) return true;
  if (is_plain_evasion(e)) return true;
  if (e.played == e.best && e.best_score == search::mate_in_plies(1)) return true;
  const bool noisy = e.position.is_capture(e.best) || e.best.is_promotion();
  const bool is_obvious =
      noisy ? search::exchange_value(e.position, e.best) >= 0
            : !e.position.in_check() && hangs(e.position.after(rules::null_move), e.best.from());
  return is_obvious && glance(e.position, e.earlier).lines.front().moves.front() == e.best;
}

double survey_gap(const Note& note) {
  if (note.lines.size() < 2) return 0;
  return expectation(note.lines[0].score) - expectation(note.lines[1].score);
}

bool is_link_in_chain(const Study& study, const Evidence& e, const Settings& s) {
  if (e.ply < 2 || e.played != e.best) return false;
  const auto at = static_cast<std::size_t>(e.ply);
  const Note& earlier = study.notes[at - 2];
  if (survey_gap(earlier) < s.only_move_gap) return false;
  const std::vector<rules::Move>& foretold = earlier.lines.front().moves;
  return foretold.size() > 2 && foretold[0] == study.moves[at - 2] &&
         foretold[1] == study.moves[at - 1] && foretold[2] == study.moves[at];
}

}  // namespace

double only_move_hint(const SurveyedPly& g, const Settings& s) {
  const Note& note = g.note();
  if (!g.played() || note.lines.size() < 2) return 0;
  const double best = expectation(note.lines.front().score);
  if (best < s.candidate_share * s.only_move_least) return 0;
  if (g.last() && takes_back(g.before, g.last(), note.lines.front().moves.front())) return 0;
  const double gap = survey_gap(note);
  return gap >= s.candidate_share * s.only_move_gap ? gap : 0;
}

bool is_plain_only_move(const Study& study, const Evidence& e, const Settings& s) {
  return is_plain(e) || is_link_in_chain(study, e, s);
}

std::optional<Moment> find_only_move(const Study& study, const Evidence& e, const Settings& s) {
  if (!e.played || e.legal_moves < 2) return std::nullopt;
  if (e.best_expectation() < s.only_move_least || e.gap() < s.only_move_gap) return std::nullopt;
  if (!e.held_before(earlier_share * s.only_move_gap)) return std::nullopt;
  if (is_plain_only_move(study, e, s)) return std::nullopt;
  return moment_of(e, Kind::only_move);
}

}  // namespace kairos::study
