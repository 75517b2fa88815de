#include "kairos/base/interval.hpp"

#include <algorithm>
#include <cmath>

namespace kairos::base {

Interval wilson_interval(std::uint64_t hits, std::uint64_t trials) {
  if (trials == 0) return {};
  constexpr double z = 1.959964;  // 97.5 % point of the normal distribution
  const auto n = static_cast<double>(trials);
  const double p = static_cast<double>(hits) / n;
  const double shrink = 1 + z * z / n;
  const double centre = (p + z * z / (2 * n)) / shrink;
  const double half = z * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n)) / shrink;
  return {std::max(0.0, centre - half), std::min(1.0, centre + half)};
}

}  // namespace kairos::base
