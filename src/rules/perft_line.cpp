#include "kairos/base/text.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/perft.hpp"

namespace kairos::rules {

namespace {

std::optional<PerftLine::Count> read_count(std::string_view text) {
  const auto parts = base::fields(text);
  if (parts.size() != 2 || parts[0].size() < 2 || parts[0][0] != 'D') return std::nullopt;
  const auto depth = base::to_integer(parts[0].substr(1));
  const auto nodes = base::to_integer(parts[1]);
  if (!depth || !nodes || *depth < 0 || *depth > most_perft_depth || *nodes < 0) {
    return std::nullopt;
  }
  return PerftLine::Count{static_cast<int>(*depth), static_cast<std::uint64_t>(*nodes)};
}

}  // namespace

base::Result<PerftLine> read_perft_line(std::string_view text) {
  const auto parts = base::split(text, ';');
  auto position = parse_fen(parts[0]);
  if (!position) return std::move(position).faults();
  PerftLine line{*position, {}};
  for (std::size_t i = 1; i < parts.size(); ++i) {
    if (base::trim(parts[i]).empty()) continue;
    const auto count = read_count(parts[i]);
    if (!count) return base::Fault{base::Code::epd_counts, std::string(base::trim(parts[i])), {}};
    line.counts.push_back(*count);
  }
  if (line.counts.empty()) return base::Fault{base::Code::epd_counts, "no count", {}};
  return line;
}

}  // namespace kairos::rules
