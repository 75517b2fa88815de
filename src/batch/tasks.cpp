#include "tasks.hpp"

namespace kairos::batch {

namespace {

void compose_puzzles(const study::Scoresheet& sheet, const study::Settings& settings,
                     search::Searcher& searcher, Findings& findings) {
  const std::uint64_t before = searcher.nodes();
  for (const study::Moment& moment : findings.moments) {
    if (moment.kind == study::Kind::slip) continue;  // nothing is asked of what is not told
    puzzle::Composition composition =
        puzzle::compose(sheet, moment, findings.moments, settings, searcher);
    if (composition.puzzle) {
      findings.puzzles.push_back(std::move(*composition.puzzle));
    } else {
      findings.drops.push_back(composition.drop);
    }
  }
  findings.nodes += searcher.nodes() - before;
}

}  // namespace

std::vector<Findings> verify_and_compose(const study::Scoresheet& sheet, const study::Study& study,
                                         const study::Stretch& stretch,
                                         const study::Settings& settings,
                                         search::Searcher& searcher) {
  std::vector<Findings> all;
  for (study::Verified& verified : study::verify(sheet, study, stretch, settings, searcher)) {
    Findings& findings = all.emplace_back();
    findings.ply = verified.ply;
    findings.moments = std::move(verified.moments);
    findings.nodes = verified.nodes;
  }
  for (Findings& findings : all) compose_puzzles(sheet, settings, searcher, findings);
  return all;
}

base::Status put_with_reasons_or_without(Ledger& ledger, const GameKey& key,
                                         const Findings& findings,
                                         std::optional<base::Fault>& refused) {
  auto put = ledger.put_findings(key, findings);
  if (put || put.fault().code != base::Code::ledger_damaged) return put;
  refused = put.fault();
  Findings bare = findings;
  for (study::Moment& moment : bare.moments) moment.reasons.clear();
  return ledger.put_findings(key, bare);
}

}  // namespace kairos::batch
