#include "html_bar.hpp"

namespace kairos::report {

std::string interval_bar(std::uint64_t hits, std::uint64_t trials, const base::Interval& interval) {
  const auto at = [](double share) { return std::to_string(static_cast<int>(share * 100 + 0.5)); };
  const double share = static_cast<double>(hits) / static_cast<double>(trials);
  return "<svg class=\"bar\" viewBox=\"-3 0 106 14\" preserveAspectRatio=\"none\" "
         "aria-hidden=\"true\"><path class=\"base\" d=\"M0 7H100\"/><path class=\"span\" d=\"M" +
         at(interval.low) + " 7H" + at(interval.high) + "\"/><path class=\"dot\" d=\"M" +
         at(share) + " 2h2v10h-2z\"/></svg>";
}

}  // namespace kairos::report
