// The reasons of a moment: why its moves work or fail, as far as that is proved.
#pragma once

#include "evidence.hpp"

namespace kairos::study {

// Fills `moment.reasons` (and adds the nodes that the proofs took). A claim's are its own: they are
// what it was found by.
void give_reasons(const Evidence& evidence, const Settings& settings, Moment& moment);

}  // namespace kairos::study
