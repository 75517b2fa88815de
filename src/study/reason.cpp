#include "kairos/study/reason.hpp"

namespace kairos::study {

std::string_view name_of(Role role) {
  constexpr std::array<std::string_view, role_count> names = {"best", "reply", "second_reply",
                                                              "note"};
  return names[static_cast<std::size_t>(role)];
}

std::string_view name_of(ReasonKind kind) {
  constexpr std::array<std::string_view, reason_kind_count> names = {
      "mates", "leads_to_mate", "wins_material", "wins_back", "motif", "assertion"};
  return names[static_cast<std::size_t>(kind)];
}

std::string_view name_of(Assertion assertion) {
  constexpr std::array<std::string_view, assertion_count> names = {
      "playable", "good_move",       "poor_move", "only_move", "level",
      "drawn",    "slightly_better", "better",    "won",       "mate"};
  return names[static_cast<std::size_t>(assertion)];
}

}  // namespace kairos::study
