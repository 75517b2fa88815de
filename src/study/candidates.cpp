#include <algorithm>

#include "kairos/study/examine.hpp"

#include "moments/kinds.hpp"

namespace kairos::study {

std::vector<Candidate> candidates(const Scoresheet& sheet, const Study& study,
                                  const Settings& settings) {
  std::vector<Candidate> found;
  for (int ply = 0; ply < static_cast<int>(study.notes.size()); ++ply) {
    const SurveyedPly surveyed(sheet, study, ply);
    if (surveyed.position.fullmove_number() < settings.from_move) continue;
    const double promise = std::max(
        {swing_hint(surveyed, settings), slip_hint(surveyed), only_move_hint(surveyed, settings),
         quiet_win_hint(surveyed, settings), trap_hint(surveyed, settings),
         ended_early_hint(surveyed, settings), claim_hint(surveyed, settings)});
    if (promise > 0) found.push_back({ply, promise});
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Candidate& a, const Candidate& b) { return a.promise > b.promise; });
  if (found.size() > most_candidates) found.resize(most_candidates);
  return found;
}

}  // namespace kairos::study
