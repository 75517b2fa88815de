// Ended early: resigned with an expectation of `resigned_least` or more, or drawn by agreement with
// one side at `agreed_least` or more.
//
// Mate, stalemate, repetition, move counts and bare material end a game by the Laws, and a forfeit
// or an adjudication (Termination tag other than "normal") by other means: no such thing. A game
// cut off by the file (no result) did not end at all, and a decisive one of a few moves from the
// start was not played: common practice is to write down a forfeit so. Scores are from the side to
// move in the last position; `played_score` is what the result gave it (a loss or a win as the
// greatest evaluation).
#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/rules/draws.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/study/expectation.hpp"

#include "kinds.hpp"

namespace kairos::study {

namespace {

// The iteration before the last may fall short of the threshold by this much.
constexpr double earlier_slack = 0.08;
// From the start position, games with fewer plies were hardly played.
constexpr std::size_t least_plies = 10;

// What the result gave the side to move: 1, 0.5, 0; negative when the game has no result.
double outcome_for(const GameFacts& facts, rules::Color side) {
  if (facts.result == "1/2-1/2") return 0.5;
  if (facts.result == "1-0") return side == rules::white ? 1 : 0;
  if (facts.result == "0-1") return side == rules::white ? 0 : 1;
  return -1;
}

bool was_played(const Scoresheet& sheet) {
  if (sheet.moves.empty()) return false;
  return sheet.moves.size() >= least_plies ||
         rules::to_fen(sheet.positions.front()) != rules::start_fen;
}

bool ended_by_players(const Scoresheet& sheet) {
  if (!was_played(sheet)) return false;
  const std::string termination = base::lower_case(sheet.facts.termination);
  return termination.empty() || termination == "normal" || termination == "?";
}

// How much better than the result the one who agreed to it stood; 0 when nothing is wrong.
double regret(double expected, double outcome, const Settings& s) {
  if (outcome == 0.5) {
    const double better = std::max(expected, 1 - expected);
    return better >= s.agreed_least ? better - 0.5 : 0;
  }
  const double of_loser = outcome == 0 ? expected : 1 - expected;
  return of_loser >= s.resigned_least ? of_loser : 0;
}

}  // namespace

double ended_early_hint(const SurveyedPly& g, const Settings& s) {
  const Note& note = g.note();
  if (g.played() || note.lines.empty() || !ended_by_players(g.sheet)) return 0;
  const double outcome = outcome_for(g.sheet.facts, g.position.side_to_move());
  if (outcome < 0) return 0;
  return regret(expectation(note.lines.front().score), outcome, s);
}

std::optional<Moment> find_ended_early(const Scoresheet& sheet, const Evidence& e,
                                       const Settings& s) {
  if (e.played || e.verdict.lines.empty() || !ended_by_players(sheet)) return std::nullopt;
  if (rules::game_status(e.position, e.earlier) != rules::GameStatus::open) return std::nullopt;
  const double outcome = outcome_for(sheet.facts, e.position.side_to_move());
  const auto& history = e.verdict.history;
  if (outcome < 0 || history.size() < 2) return std::nullopt;
  // Both scores of the best move must say so, whichever side they favour.
  Settings earlier = s;
  earlier.resigned_least -= earlier_slack;
  earlier.agreed_least -= earlier_slack;
  if (regret(expectation(e.best_score), outcome, s) == 0 ||
      regret(expectation(e.verdict.lines.front().score), outcome, s) == 0 ||
      regret(expectation(history[history.size() - 2].score), outcome, earlier) == 0) {
    return std::nullopt;
  }
  Moment m = moment_of(e, Kind::ended_early);
  m.played_score = outcome == 0.5
                       ? search::draw_score
                       : (outcome == 0 ? -search::max_evaluation : search::max_evaluation);
  m.found = false;
  return m;
}

}  // namespace kairos::study
