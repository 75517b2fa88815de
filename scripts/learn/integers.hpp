// The network's weights in files: the integers that play (network.hpp has the file's form), and the
// numbers of the training as they are, to go on from.
#pragma once

#include <string>

#include "trainer.hpp"

namespace kairos::learn {

// Rounds to the nearest; false when the file cannot be written.
bool write_integers(const FloatNetwork& network, const std::string& path);
// The numbers that these integers stand for. What the king's regions have in common, their mean, is
// put into `shared` and the rest into `layer`, so that decay pulls the regions to their mean.
// False, and the network as it was, when the file cannot be read or is of another form.
bool read_integers(const std::string& path, FloatNetwork& network);

bool write_floats(const FloatNetwork& network, const std::string& path);
// False when the file cannot be read or is of another shape.
bool read_floats(const std::string& path, FloatNetwork& network);

}  // namespace kairos::learn
