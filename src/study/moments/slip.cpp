// Slip: a move that costs less than a swing, but something. Kept, not told: slides and turns are
// made of slips (told.hpp). Sought where the survey shows several costs of one side close together,
// and with the loser of a game.
#include "kairos/study/expectation.hpp"

#include "kinds.hpp"

namespace kairos::study {

namespace {

constexpr double least = 0.05;
// By the survey: what a slide's moves cost together, how far they lie apart, and what a move costs
// that may be a turn.
constexpr double together = 0.24;
constexpr int window_plies = 18;
constexpr double of_loser = 0.08;
constexpr double over = 0.5;      // of a position in which the game is over
constexpr double kept = 2.0 / 3;  // a slide of which a third is given back is none

double slip_by_survey(const Study& study, int ply) {
  const double cost = surveyed_cost(study.notes[static_cast<std::size_t>(ply)]);
  return cost >= least ? cost : 0;
}

// Whether the ply lies in a window of its side's moves that cost so much together, most of which
// the other side has not given back at the end of it.
bool is_among_costly(const Study& study, int ply) {
  const int end = static_cast<int>(study.moves.size());
  for (int first = ply; first >= 0 && first >= ply - window_plies; first -= 2) {
    double sum = 0;
    for (int at = first; at < end && at <= first + window_plies; at += 2) {
      sum += slip_by_survey(study, at);
      const double lost = surveyed_expectation(study, ply, first).value_or(over) -
                          surveyed_expectation(study, ply, at + 1).value_or(over);
      if (at >= ply && sum >= together && lost >= kept * together) return true;
    }
  }
  return false;
}

}  // namespace

double surveyed_cost(const Note& note) {
  if (note.lines.empty()) return 0;
  return expectation(note.lines.front().score) - expectation(note.played_score);
}

std::optional<double> surveyed_expectation(const Study& study, int mover_ply, int at) {
  const Note& note = study.notes[static_cast<std::size_t>(at)];
  if (note.lines.empty()) return std::nullopt;
  const double expected = expectation(note.lines.front().score);
  return (at - mover_ply) % 2 == 0 ? expected : 1 - expected;
}

double slip_hint(const SurveyedPly& g) {
  if (!g.played()) return 0;
  const double cost = slip_by_survey(g.study, g.ply);
  if (cost == 0) return 0;
  const GameFacts& facts = g.study.facts;
  const bool lost = was_won_at_the_board(facts) && loser_of(facts) == g.position.side_to_move();
  return (lost && cost >= of_loser) || is_among_costly(g.study, g.ply) ? cost : 0;
}

std::optional<Moment> find_slip(const Evidence& e) {
  if (!e.erred_by(least)) return std::nullopt;
  return moment_of(e, Kind::slip);
}

}  // namespace kairos::study
