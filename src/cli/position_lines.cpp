#include "position_lines.hpp"

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/pgn/epd.hpp"

namespace kairos::cli {

PositionLines::PositionLines(std::unique_ptr<base::ByteSource> source, std::string file, Use use)
    : source_(std::move(source)),
      file_(std::move(file)),
      use_(use),
      lines_(*source_, pgn::longest_epd_line) {}

base::Result<PositionLines> PositionLines::open(const std::string& file, Use use) {
  auto source = base::open_source(file);
  if (!source) return std::move(source).faults();
  return PositionLines(std::move(*source), file, use);
}

std::optional<PositionLines::Line> PositionLines::next() {
  while (!failure_) {
    const auto line = lines_.next();
    failure_ = lines_.failure();
    if (!line) return std::nullopt;
    const std::string_view text = base::trim(line->text);
    const bool is_too_much = given_ == most_positions || lines_.bytes() > most_bytes;
    if (use_ == Use::kept && is_too_much) {
      failure_ = base::Fault{
          base::Code::too_many_positions,
          base::grouped(most_positions) + ", or " + base::grouped(most_bytes >> 20) + " MB",
          {.file = file_, .line = line->number}};
      return std::nullopt;
    }
    if (text.empty() || text[0] == '#') continue;
    ++given_;
    return Line{text, line->number, line->is_cut()};
  }
  return std::nullopt;
}

base::Fault PositionLines::too_long() {
  return {base::Code::line_too_long, base::grouped(pgn::longest_epd_line) + " bytes at most", {}};
}

}  // namespace kairos::cli
