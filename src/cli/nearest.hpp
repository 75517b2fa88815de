// The nearest known word to one that was mistyped.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace kairos::cli {

// The word with the least distance, the first of several; "" when none is near (more than a third
// of the letters, and at least 2, would change).
std::string nearest(std::string_view word, const std::vector<std::string>& known);

}  // namespace kairos::cli
