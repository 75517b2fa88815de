// The work on a stretch of candidates, from its arguments alone.
#pragma once

#include "kairos/batch/record.hpp"
#include "kairos/study/examine.hpp"

namespace kairos::batch {

// Verifies a stretch of a surveyed game and composes puzzles of its moments: the findings of each
// ply, ascending.
std::vector<Findings> verify_and_compose(const study::Scoresheet& sheet, const study::Study& study,
                                         const study::Stretch& stretch,
                                         const study::Settings& settings,
                                         search::Searcher& searcher);

}  // namespace kairos::batch
