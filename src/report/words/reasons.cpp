// One reason, as the part of a sentence that follows its move.
#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"

namespace kairos::report {

using study::Assertion;
using study::ReasonKind;

std::string effect_words(const study::Reason& reason) {
  switch (reason.kind) {
    case ReasonKind::mates:
      return reason.mate_moves == 1 ? "is mate" : "mates in " + base::number(reason.mate_moves);
    case ReasonKind::leads_to_mate:
      return "leads to mate";
    case ReasonKind::wins_material:
      return "wins " + men_words(reason.men);
    case ReasonKind::wins_back:
      return "wins back " + men_words(reason.men);
    case ReasonKind::motif:
    case ReasonKind::assertion:
      return "";
  }
  return "";
}

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

}  // namespace kairos::report
