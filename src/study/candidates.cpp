#include <algorithm>

#include "kairos/study/examine.hpp"

#include "moments/kinds.hpp"

namespace kairos::study {

rules::Move SurveyedPly::played() const {
  const auto at = static_cast<std::size_t>(ply);
  return at < study.moves.size() ? study.moves[at] : rules::Move{};
}

rules::Move SurveyedPly::last() const {
  return ply > 0 ? study.moves[static_cast<std::size_t>(ply) - 1] : rules::Move{};
}

std::vector<Candidate> candidates(const Study& study, const Settings& settings) {
  std::vector<Candidate> found;
  const Claims claims(study);
  rules::Position before = study.start, position = study.start;
  for (std::size_t i = 0; i < study.notes.size(); ++i) {
    if (i > 0) {
      before = position;
      position.play(study.moves[i - 1]);
    }
    if (position.fullmove_number() < settings.from_move) continue;
    const SurveyedPly surveyed{study, static_cast<int>(i), position, before};
    const double promise =
        std::max({swing_hint(surveyed, settings), only_move_hint(surveyed, settings),
                  quiet_win_hint(surveyed, settings), trap_hint(surveyed, settings),
                  ended_early_hint(surveyed, settings), claims.hint(surveyed, settings)});
    if (promise > 0) found.push_back({static_cast<int>(i), promise});
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Candidate& a, const Candidate& b) { return a.promise > b.promise; });
  if (found.size() > most_candidates) found.resize(most_candidates);
  return found;
}

}  // namespace kairos::study
