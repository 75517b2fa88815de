#include "kairos/base/lines.hpp"

#include <algorithm>

namespace kairos::base {

LineReader::LineReader(ByteSource& source, std::size_t longest)
    : source_(source), longest_(longest), piece_(std::size_t{1} << 16) {}

bool LineReader::fill() {
  if (failure_) return false;
  auto n = source_.read(piece_);
  if (!n) failure_ = n.fault();
  at_ = 0;
  end_ = n ? *n : 0;
  return end_ != 0;
}

void LineReader::keep(std::string_view part) {
  begun_.append(part.substr(0, longest_ - std::min(longest_, begun_.size())));
}

std::optional<TextLine> LineReader::next() {
  TextLine line{.text = {}, .size = 0, .number = number_ + 1, .offset = bytes_};
  begun_.clear();
  for (;;) {
    if (at_ == end_ && !fill()) {
      if (line.size == 0 || failure_) return std::nullopt;
      line.is_ended = false;
      break;
    }
    const std::string_view rest(piece_.data() + at_, end_ - at_);
    const std::size_t feed = rest.find('\n');
    const std::string_view part = rest.substr(0, feed);
    const bool is_whole = feed != std::string_view::npos && line.size == 0;
    line.size += part.size();
    at_ += part.size();
    // Mostly a line stands in one piece, where it can stay.
    if (is_whole) {
      line.text = part.substr(0, longest_);
    } else {
      keep(part);
    }
    if (feed == std::string_view::npos) continue;
    ++at_;
    break;
  }
  if (line.text.empty()) line.text = begun_;
  bytes_ += line.size + (line.is_ended ? 1 : 0);
  ++number_;
  return line;
}

}  // namespace kairos::base
