#include "find_rate.hpp"

#include "kairos/people/shares.hpp"
#include "kairos/study/all_moves.hpp"

namespace kairos::study {

void give_find_rates(const Scoresheet& sheet, int ply, std::vector<Moment>& moments) {
  if (moments.empty()) return;
  const auto at = static_cast<std::size_t>(ply);
  const rules::Position& position = sheet.positions[at];
  const int elo = elo_of(sheet.facts, position.side_to_move());
  const std::vector<people::Judged> judged = judge_all_moves(position, sheet.keys_before(ply));
  const people::Shares shares = people::shares(
      position, before_of(sheet.positions, sheet.moves, at), judged, elo > 0 ? elo : unrated);
  for (Moment& moment : moments) {
    if (moment.position != position) continue;  // a claim may be about a variation
    moment.find_rate =
        static_cast<int>(people::share_of(moment.best, judged, shares) * find_rate_of + 0.5);
  }
}

}  // namespace kairos::study
