// The work on a stretch of candidates, from its arguments alone, and putting it into the ledger.
#pragma once

#include <optional>

#include "kairos/batch/ledger.hpp"
#include "kairos/batch/record.hpp"
#include "kairos/study/examine.hpp"

namespace kairos::batch {

// Verifies a stretch of a surveyed game and composes puzzles of its moments: the findings of each
// ply, ascending.
std::vector<Findings> verify_and_compose(const study::Scoresheet& sheet, const study::Study& study,
                                         const study::Stretch& stretch,
                                         const study::Settings& settings,
                                         search::Searcher& searcher);

// Puts findings into the ledger. It refuses what it could not read again: that is a fault of this
// program, which shall not cost a night's run. The moments are put without their reasons then, and
// `refused` says why.
base::Status put_with_reasons_or_without(Ledger& ledger, const GameKey& key,
                                         const Findings& findings,
                                         std::optional<base::Fault>& refused);

}  // namespace kairos::batch
