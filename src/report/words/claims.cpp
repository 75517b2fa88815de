// What the verdict holds against the player's own notes. They are somebody's work: said without
// reproach.
#include "kairos/base/text.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"

#include "phrases.hpp"

namespace kairos::report {

namespace {

using study::Assertion;
using study::Moment;

// "after 4. Qf3 the position is level".
std::string state_after(const Moment& m) {
  const std::string state = state_of(m.position.side_to_move(), m.played_expectation());
  if (m.refutation.empty()) return state;
  const rules::Position after = study::position_of(m, study::Role::reply);
  return "after " + numbered(after, m.refutation.front()) + " " + state;
}

std::string contradiction_of(const Moment& m, Assertion assertion) {
  switch (assertion) {
    case Assertion::playable:
    case Assertion::good_move:
      return state_after(m) + "; better is " + numbered(m.position, m.best);
    case Assertion::poor_move:
      return std::string(m.best == m.played ? "it is the best move" : "it is as good as any") +
             "; " + state_after(m);
    case Assertion::only_move:
      return "there is another as good";
    case Assertion::mate:
      return "no such mate is there";
    case Assertion::level:
    case Assertion::drawn:
    case Assertion::slightly_better:
    case Assertion::better:
    case Assertion::won:
      return state_after(m);
  }
  return "";
}

}  // namespace

std::string assertion_words(const study::Reason& reason) {
  const std::string of_side = reason.favours ? " for " + side_words(*reason.favours) : "";
  switch (reason.assertion.value_or(Assertion::playable)) {
    case Assertion::playable:
      return "given";
    case Assertion::good_move:
      return "marked as good";
    case Assertion::poor_move:
      return "marked as poor";
    case Assertion::only_move:
      return "marked as the only move";
    case Assertion::level:
      return "called level";
    case Assertion::drawn:
      return "called a draw";
    case Assertion::slightly_better:
      return "called slightly better" + of_side;
    case Assertion::better:
      return "called better" + of_side;
    case Assertion::won:
      return "called won" + of_side;
    case Assertion::mate:
      return "called mate in " + base::number(reason.mate_moves);
  }
  return "";
}

std::string claim_sentence(const Moment& m) {
  const std::string noted = numbered(m.position, m.played);
  for (const study::Reason& reason : m.reasons) {
    if (!reason.assertion || reason.assertion == Assertion::playable) continue;
    return noted + " is " + assertion_words(reason) + " in the notes, but " +
           contradiction_of(m, *reason.assertion) + ".";
  }
  return "The notes give " + noted + ", but " + contradiction_of(m, Assertion::playable) + ".";
}

}  // namespace kairos::report
