#include "line_input.hpp"

#include <algorithm>
#include <cerrno>
#include <poll.h>
#include <unistd.h>
#include <utility>

namespace kairos::cli {

namespace {

bool is_line_end(char c) {
  return c == '\n' || c == '\r';
}

}  // namespace

// Waits by `poll`, which a signal breaks off.
LineInput::State LineInput::fill(int milliseconds) {
  pollfd input{descriptor_, POLLIN, 0};
  if (::poll(&input, 1, milliseconds) <= 0) return State::waiting;
  const ssize_t n = ::read(descriptor_, room_.data(), room_.size());
  if (n < 0 && (errno == EINTR || errno == EAGAIN)) return State::waiting;
  at_ = 0;
  end_ = n > 0 ? static_cast<std::size_t>(n) : 0;
  return n > 0 ? State::line : State::ended;
}

LineInput::State LineInput::next(std::string& line, std::size_t longest, int milliseconds) {
  for (;;) {
    if (at_ == end_) {
      const State filled = fill(milliseconds);
      // The last line may have no end.
      if (filled == State::ended && std::exchange(any_, false)) {
        line = std::exchange(begun_, {});
        return State::line;
      }
      if (filled != State::line) return filled;
    }
    if (std::exchange(after_return_, false) && room_[at_] == '\n') {
      ++at_;
      continue;
    }
    any_ = true;
    const char* const begin = room_.data() + at_;
    const char* const line_end =
        std::find_if(begin, static_cast<const char*>(room_.data()) + end_, is_line_end);
    const auto length = static_cast<std::size_t>(line_end - begin);
    begun_.append(begin, std::min(length, longest - std::min(longest, begun_.size())));
    at_ += length;
    if (at_ == end_) return State::waiting;
    after_return_ = room_[at_++] == '\r';
    any_ = false;
    line = std::exchange(begun_, {});
    return State::line;
  }
}

std::optional<std::string> LineInput::wait(std::size_t longest, const std::atomic<bool>& stop) {
  constexpr int look_every = 100;  // milliseconds
  std::string line;
  State state = State::waiting;
  while (state == State::waiting && !stop) state = next(line, longest, look_every);
  if (state != State::line) return std::nullopt;
  return line;
}

}  // namespace kairos::cli
