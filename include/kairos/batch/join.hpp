// Joining the ledgers of a split run into one, as if one machine had done it all.
//
// The parts must be of one run: the same kairos, evaluation and definitions, the same settings, the
// same games in the same order (wherever their files lay), split in the same number of parts.
// Parts may come in any order and twice. Parts that are missing, and games that a part has not
// finished, are told but do not stop the work: the rest is joined, and can be joined again when
// they are there.
#pragma once

#include <string>
#include <vector>

#include "kairos/base/diagnostics.hpp"
#include "kairos/base/result.hpp"
#include "kairos/batch/ledger.hpp"

namespace kairos::batch {

// `paths` are ledgers or their folders; `folder` gets the joined ledger (a whole run, which `scan`
// could go on with). Missing parts and damage go to `diagnostics`; what does not fit is a fault.
base::Result<Ledger> join(const std::vector<std::string>& paths, const std::string& folder,
                          base::Diagnostics& diagnostics);

}  // namespace kairos::batch
