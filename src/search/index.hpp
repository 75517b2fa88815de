// Plies, files and the like are ints, places in an array std::size_t: the way from one to the
// other, for numbers that are never negative.
#pragma once

#include <cstddef>

namespace kairos::search {

constexpr std::size_t index(int n) {
  return static_cast<std::size_t>(n);
}

}  // namespace kairos::search
