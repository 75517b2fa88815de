// How a gain or a mate comes about: what the move before gave up for it, or what the move does.
#pragma once

#include "move_facts.hpp"

namespace kairos::study {

// Fills the means of a reason with a line of its own, that of a move whose facts these are; leaves
// them empty where no definition (means.cpp) fits.
void tell_means(Reason& reason, const MoveFacts& facts);

}  // namespace kairos::study
