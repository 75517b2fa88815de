#include "kairos/study/reason.hpp"

namespace kairos::study {

std::string_view name_of(Role role) {
  constexpr std::array<std::string_view, role_count> names = {"best", "reply", "second_reply",
                                                              "note"};
  return names[static_cast<std::size_t>(role)];
}

std::string_view name_of(ReasonKind kind) {
  constexpr std::array<std::string_view, reason_kind_count> names = {
      "mates",           "leads_to_mate",  "wins_material", "wins_back",
      "motif",           "assertion",      "soon_wins",     "draws",
      "threatens",       "prevents",       "attacks_king",  "opens_king",
      "pawn_runs",       "enters_ending",  "zugzwang",      "hits",
      "takes",           "drives_off",     "keeps_attack",  "leads_to_fork",
      "leads_to_threat", "trades",         "offers_trade",  "guards",
      "comes_in",        "makes_passed",   "stops_pawn",    "behind_pawn",
      "open_file",       "seventh_rank",   "avoids_check",  "sends_back",
      "king_comes",      "pins",           "settles",       "doubles_pawns",
      "evades",          "stops_castling", "keeps_man"};
  return names[static_cast<std::size_t>(kind)];
}

std::string_view name_of(Means means) {
  constexpr std::array<std::string_view, means_count> names = {"guard_gone",
                                                               "guard_shut",
                                                               "square_unguarded",
                                                               "line_opened",
                                                               "in_between",
                                                               "guard_taken",
                                                               "guard_drawn_off",
                                                               "discovered",
                                                               "skewer",
                                                               "fork",
                                                               "pin",
                                                               "trapped",
                                                               "trade"};
  return names[static_cast<std::size_t>(means)];
}

std::string_view name_of(Assertion assertion) {
  constexpr std::array<std::string_view, assertion_count> names = {
      "playable", "good_move",       "poor_move", "only_move", "level",
      "drawn",    "slightly_better", "better",    "won",       "mate"};
  return names[static_cast<std::size_t>(assertion)];
}

bool is_mate(const Reason& reason) {
  return reason.kind == ReasonKind::mates || reason.kind == ReasonKind::leads_to_mate;
}

}  // namespace kairos::study
