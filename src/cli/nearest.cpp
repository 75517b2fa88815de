#include "nearest.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"

namespace kairos::cli {

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  const std::size_t most = std::max<std::size_t>(2, word.size() / 3);
  std::string best;
  std::size_t least = most + 1;
  for (const std::string& candidate : known) {
    const std::size_t shorter = std::min(word.size(), candidate.size());
    if (std::max(word.size(), candidate.size()) - shorter >= least) continue;  // letters put in
    const std::size_t distance = base::edit_distance(word, candidate);
    if (distance >= least || distance >= candidate.size()) continue;
    least = distance;
    best = candidate;
  }
  return best;
}

}  // namespace kairos::cli
