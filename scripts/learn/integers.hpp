// The network's weights as the integers that play (network.hpp has the file's form).
#pragma once

#include <string>

#include "trainer.hpp"

namespace kairos::learn {

// Rounds to the nearest; false when the file cannot be written.
bool write_integers(const FloatNetwork& network, const std::string& path);

}  // namespace kairos::learn
