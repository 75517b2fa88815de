#include "nearest.hpp"

#include <algorithm>

namespace kairos::cli {

// Rows of the classic table: row i holds the distances of a's first i letters to each front of b.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> row(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) {
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        row[i][j] = i + j;
        continue;
      }
      row[i][j] = std::min({row[i - 1][j] + 1, row[i][j - 1] + 1,
                            row[i - 1][j - 1] + (a[i - 1] != b[j - 1] ? 1U : 0U)});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[i][j] = std::min(row[i][j], row[i - 2][j - 2] + 1);
    }
  }
  return row[a.size()][b.size()];
}

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  const std::size_t most = std::max<std::size_t>(2, word.size() / 3);
  std::string best;
  std::size_t least = most + 1;
  for (const std::string& candidate : known) {
    const std::size_t distance = edit_distance(word, candidate);
    if (distance >= least || distance >= candidate.size()) continue;
    least = distance;
    best = candidate;
  }
  return best;
}

}  // namespace kairos::cli
