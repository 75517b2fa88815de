#include "tasks.hpp"

namespace kairos::batch {

Findings verify_and_compose(const study::Scoresheet& sheet, const study::Study& study,
                            const study::Candidate& candidate, const study::Settings& settings,
                            search::Searcher& searcher) {
  Findings findings;
  findings.ply = candidate.ply;
  const std::uint64_t before = searcher.nodes();
  findings.moments = study::verify(sheet, study, candidate, settings, searcher);
  for (const study::Moment& moment : findings.moments) {
    puzzle::Composition composition =
        puzzle::compose(sheet, moment, findings.moments, settings, searcher);
    if (composition.puzzle) {
      findings.puzzles.push_back(std::move(*composition.puzzle));
    } else {
      findings.drops.push_back(composition.drop);
    }
  }
  findings.nodes = searcher.nodes() - before;
  return findings;
}

}  // namespace kairos::batch
