// Which evaluation this program judges by, as a checksum: eight hexadecimal digits, the CRC-32 of
// the network's weights.
//
// Scores of two evaluations must not be mixed, so a ledger names the one it was made with. The code
// around the numbers is not in the checksum: who changes scores without changing a number raises
// `form` in src/search/evaluation.cpp. Safe from any thread; no errors.
#pragma once

#include <string>

namespace kairos::search {

std::string evaluation_checksum();

}  // namespace kairos::search
