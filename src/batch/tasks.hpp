// The work on a candidate, from its arguments alone.
#pragma once

#include "kairos/batch/record.hpp"
#include "kairos/study/examine.hpp"

namespace kairos::batch {

// Verifies a candidate of a surveyed game and composes puzzles of its moments.
Findings verify_and_compose(const study::Scoresheet& sheet, const study::Study& study,
                            const study::Candidate& candidate, const study::Settings& settings,
                            search::Searcher& searcher);

}  // namespace kairos::batch
