#include "kairos/pgn/position_lines.hpp"

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/pgn/epd.hpp"

namespace kairos::pgn {

namespace {

base::Fault too_much(const std::string& file) {
  return {base::Code::too_many_positions,
          base::grouped(most_positions) + " in " + base::grouped(most_position_bytes >> 20) +
              " MB at most",
          {.file = file}};
}

}  // namespace

PositionLines::PositionLines(std::unique_ptr<base::ByteSource> source, std::string file, Use use)
    : source_(std::move(source)),
      file_(std::move(file)),
      use_(use),
      lines_(*source_, longest_epd_line) {}

base::Result<PositionLines> PositionLines::open(const std::string& file, Use use) {
  auto source = base::open_source(file);
  if (!source) return std::move(source).faults();
  std::unique_ptr<base::ByteSource> bytes = std::move(*source);
  if (use == Use::kept) {
    // The last line may have no end.
    bytes = std::make_unique<base::LimitedSource>(std::move(bytes), most_position_bytes,
                                                  too_much(file));
  }
  return PositionLines(std::move(bytes), file, use);
}

std::optional<PositionLines::Line> PositionLines::next() {
  while (!failure_) {
    const auto line = lines_.next();
    failure_ = lines_.failure();
    if (!line) return std::nullopt;
    const std::string_view text = base::trim(line->text);
    if (text.empty() || text[0] == '#') continue;
    if (++given_ > most_positions && use_ == Use::kept) {
      failure_ = too_much(file_);
      return std::nullopt;
    }
    return Line{text, line->number, line->is_cut()};
  }
  return std::nullopt;
}

base::Fault PositionLines::too_long() {
  return {base::Code::line_too_long, base::grouped(longest_epd_line) + " bytes at most", {}};
}

}  // namespace kairos::pgn
