#include "line_input.hpp"

#include <algorithm>
#include <cerrno>
#include <poll.h>
#include <unistd.h>

namespace kairos::cli {

// A read that has begun is not broken off by a signal, so there is a look at `stop` every now and
// then.
bool LineInput::fill(const std::atomic<bool>& stop) {
  constexpr int milliseconds = 100;
  pollfd input{STDIN_FILENO, POLLIN, 0};
  for (;;) {
    if (stop) return false;
    const int ready = ::poll(&input, 1, milliseconds);
    if (ready == 0 || (ready < 0 && errno == EINTR)) continue;
    const ssize_t n = ::read(STDIN_FILENO, room_.data(), room_.size());
    if (n < 0 && errno == EINTR) continue;
    at_ = 0;
    end_ = n > 0 ? static_cast<std::size_t>(n) : 0;
    return n > 0;
  }
}

std::optional<std::string> LineInput::next(std::size_t longest, const std::atomic<bool>& stop) {
  std::string line;
  bool any = false;
  while (at_ < end_ || fill(stop)) {
    any = true;
    const char* const begin = room_.data() + at_;
    const char* const end = room_.data() + end_;
    const char* const line_end = std::find(begin, end, '\n');
    const auto length = static_cast<std::size_t>(line_end - begin);
    line.append(begin, std::min(length, longest - line.size()));
    at_ += length;
    if (line_end == end) continue;
    ++at_;
    return line;
  }
  if (!any || stop) return std::nullopt;
  return line;
}

}  // namespace kairos::cli
