// Reasons put together by hand, for tests of words.
#pragma once

#include <optional>
#include <string_view>

#include "kairos/study/reason.hpp"

namespace kairos::support {

using study::Reason;
using study::ReasonKind;

// "qpp": men by their letters.
inline study::Men men(std::string_view letters) {
  study::Men counted{};
  for (const char letter : letters) ++counted[rules::type_of(rules::piece_of_letter(letter))];
  return counted;
}

inline Reason material(std::string_view gains, std::string_view costs = "",
                       rules::PieceType promoted = rules::no_piece_type) {
  Reason reason;
  reason.kind = ReasonKind::wins_material;
  reason.men = {men(gains), men(costs), promoted};
  return reason;
}

inline Reason mate(int moves) {
  Reason reason;
  reason.kind = moves > 0 ? ReasonKind::mates : ReasonKind::leads_to_mate;
  reason.mate_moves = moves;
  return reason;
}

inline Reason back(Reason reason) {
  reason.kind = ReasonKind::wins_back;
  return reason;
}

inline Reason note(study::Assertion assertion, std::optional<rules::Color> favours = std::nullopt) {
  Reason reason;
  reason.role = study::Role::note;
  reason.kind = ReasonKind::assertion;
  reason.assertion = assertion;
  reason.favours = favours;
  reason.mate_moves = 3;
  return reason;
}

}  // namespace kairos::support
