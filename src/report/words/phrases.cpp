#include "phrases.hpp"

#include <algorithm>
#include <array>

#include "kairos/report/words.hpp"

namespace kairos::report {

using study::Moment;
using study::Role;
using study::Standing;

std::string state_of(rules::Color side, double expectation, bool only) {
  const Standing standing = study::standing_of(expectation);
  if (standing == Standing::level) return "the position is level";
  return side_words(side) + (only ? " is only " : " is ") + std::string(words(standing));
}

std::string cost_words(double from, double to) {
  const Standing before = study::standing_of(from), after = study::standing_of(to);
  if (before == after) {
    if (before == Standing::won) return "makes the win harder";
    if (before == Standing::better) return "gives part of the advantage away";
    return before == Standing::level ? "gives ground" : "makes things worse";
  }
  if (after == Standing::lost) {
    return before == Standing::won ? "throws the win away and loses" : "loses";
  }
  if (before == Standing::won) {
    return after == Standing::worse ? "throws the win away" : "lets the win slip";
  }
  return before == Standing::better ? "gives the advantage away" : "spoils a level position";
}

std::string listed(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) text += i + 1 == items.size() ? " and " : ", ";
    text += items[i];
  }
  return text;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

namespace {

// Whether the line of the best move holds the reply as well: then it does not tell the two apart.
bool is_there_after_best(const Moment& m, rules::Move reply) {
  return m.line.size() > 1 && m.line[1] == reply;
}

// Whether the reason speaks of the moves that the point's text names.
bool fits(const TurningPoint& point, const Moment& m, const study::Reason& reason) {
  switch (reason.role) {
    case Role::best:
      return m.best == point.lead().best;
    case Role::reply:
      return move_in_question(m) == move_in_question(point.lead());
    case Role::second_reply:
      return reason.kind == study::ReasonKind::mates || !is_there_after_best(m, reason.move);
    case Role::note:
      break;
  }
  return true;
}

}  // namespace

const study::Reason* told_reason(const TurningPoint& point, Role role, const study::Reason* after) {
  for (const Moment* const m : point.moments) {
    bool passed = after == nullptr;
    for (const study::Reason& reason : m->reasons) {
      const bool told = passed && reason.role == role && !effect_words(reason).empty();
      if (told && fits(point, *m, reason)) return &reason;
      passed = passed || &reason == after;
    }
  }
  return nullptr;
}

namespace {

// " by a discovered attack": of men won by what no means of the reason says, their motif.
std::string how_words(const TurningPoint& point, const study::Reason& reason) {
  using study::Motif;
  using study::ReasonKind;
  const bool wins =
      reason.kind == ReasonKind::wins_material || reason.kind == ReasonKind::soon_wins;
  if (!wins || reason.means || reason.men.promoted != rules::no_piece_type) return "";
  for (const study::Moment* const m : point.moments) {
    for (const study::Reason& other : m->reasons) {
      if (!other.motif || other.role != reason.role || other.move != reason.move) continue;
      constexpr std::array told = {Motif::discovered_attack, Motif::fork, Motif::skewer, Motif::pin,
                                   Motif::deflection,        Motif::decoy};
      if (std::ranges::find(told, *other.motif) == told.end()) return "";
      return " by a " + std::string(name_of(*other.motif));
    }
  }
  return "";
}

}  // namespace

std::string told_effect(const TurningPoint& point, Role role) {
  const study::Reason* const first = told_reason(point, role);
  if (first == nullptr) return "";
  const std::string text = effect_words(*first);
  // A second one is told behind a first that is short.
  if (text.find_first_of(",:") != std::string::npos) return text;
  const study::Reason* const second = told_reason(point, role, first);
  return text + (second == nullptr ? how_words(point, *first) : " and " + effect_words(*second));
}

}  // namespace kairos::report
