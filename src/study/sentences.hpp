// The one plain sentence (or two) that a moment is told in.
//
// Every part of it is a fact that the close look or a proof has established; where nothing is
// proved the sentence says less. Moves stand in SAN with their numbers.
#pragma once

#include "evidence.hpp"

namespace kairos::study {

// Fills `moment.sentence` (and adds the nodes of the proofs it took).
void describe(const Study& study, const Evidence& evidence, Moment& moment);

}  // namespace kairos::study
