// From what was verified of a game to what is told of it: slips become slides and turns, or
// nothing.
//
// Pure: it reads the study and searches nothing, so that a game whose places are not all verified
// yet is told by what is there. The rules stand at the top of src/study/told.cpp.
#pragma once

#include "kairos/study/study.hpp"

namespace kairos::study {

// `study.moments` as they came from verifying; afterwards in their order (study.hpp), without
// slips.
void tell(Study& study);

// Whether a verified moment may be told by itself, as the costliest move of a slide or as a turn:
// nothing is said of what a smaller slip does.
[[nodiscard]] bool needs_reasons(const Moment& verified);

}  // namespace kairos::study
