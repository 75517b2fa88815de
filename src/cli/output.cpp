#include "output.hpp"

#include <algorithm>
#include <cerrno>
#include <unistd.h>

#include "kairos/base/files.hpp"
#include "kairos/base/foreign.hpp"

#include "interrupt.hpp"

namespace kairos::cli {

Output& Output::get() {
  static Output output;
  return output;
}

base::Status Output::write(std::string_view bytes) {
  constexpr std::size_t enough = 1 << 16;
  pending_.append(bytes);
  if (pending_.size() >= enough) flush();
  return base::done();
}

std::string Output::shown(std::string_view line) const {
  return rules::in_letters(base::visible(line), letters_);
}

void Output::line(std::string_view text) {
  pending_ += shown(text);
  (void)write("\n");
}

void Output::text(std::string_view lines) {
  while (!lines.empty()) {
    const std::size_t end = std::min(lines.find('\n'), lines.size());
    pending_ += shown(lines.substr(0, end));
    lines.remove_prefix(end);
    if (lines.empty()) continue;  // the last has no end
    (void)write("\n");
    lines.remove_prefix(1);
  }
}

void Output::flush() {
  const std::string bytes = std::exchange(pending_, {});
  std::string_view rest = bytes;
  while (!rest.empty()) {
    const ssize_t n = ::write(STDOUT_FILENO, rest.data(), rest.size());
    if (n < 0 && errno == EINTR && is_interrupted()) throw Interrupted{};
    if (n < 0 && errno == EINTR) continue;
    if (n < 0 && errno == EPIPE) throw BrokenPipe{};
    if (n < 0) {
      throw OutputFailed{base::system_fault(base::Code::cannot_write, "standard output", errno)};
    }
    rest.remove_prefix(static_cast<std::size_t>(n));
  }
}

}  // namespace kairos::cli
