#include <algorithm>
#include <iterator>

#include "kairos/study/examine.hpp"

#include "moments/kinds.hpp"
#include "reasons.hpp"

namespace kairos::study {

std::vector<Moment> verify(const Scoresheet& sheet, const Study& study, const Candidate& candidate,
                           const Settings& settings, search::Searcher& searcher) {
  searcher.clear();
  const Evidence evidence = look_closer(sheet, candidate.ply, settings, searcher);
  std::vector<Moment> moments;
  const auto keep = [&](std::optional<Moment> moment) {
    if (moment) moments.push_back(std::move(*moment));
  };
  keep(find_swing(sheet, evidence, settings, searcher));
  keep(find_only_move(study, evidence, settings));
  keep(find_quiet_win(evidence, settings, searcher));
  keep(find_trap(evidence, settings, searcher));
  keep(find_ended_early(sheet, evidence, settings));
  for (Moment& moment : moments) give_reasons(evidence, settings, moment);
  std::vector<Moment> claimed = find_claims(sheet, candidate.ply, settings, searcher);
  std::move(claimed.begin(), claimed.end(), std::back_inserter(moments));
  return moments;
}

}  // namespace kairos::study
