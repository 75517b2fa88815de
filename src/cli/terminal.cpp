#include "terminal.hpp"

#include <cerrno>
#include <cstdlib>
#include <sys/ioctl.h>
#include <unistd.h>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"

#include "output.hpp"

namespace kairos::cli {

namespace {

constexpr std::string_view erase_line = "\r\x1b[K";

bool is_dumb() {
  const char* term = std::getenv("TERM");
  return term == nullptr || std::string_view(term) == "dumb";
}

}  // namespace

Looks looks_of(int descriptor) {
  Looks looks;
  looks.is_terminal = ::isatty(descriptor) == 1;
  if (!looks.is_terminal) return looks;
  looks.redraws = !is_dumb();
  looks.colors = looks.redraws && std::getenv("NO_COLOR") == nullptr;
  winsize size{};
  if (::ioctl(descriptor, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) looks.width = size.ws_col;
  return looks;
}

ErrorStream& ErrorStream::get() {
  static ErrorStream stream;
  return stream;
}

ErrorStream::ErrorStream() : looks_(looks_of(STDERR_FILENO)) {}

// Nobody can be told that standard error is gone, so a failed write is passed over.
void ErrorStream::put(std::string_view text) {
  while (!text.empty()) {
    const ssize_t n = ::write(STDERR_FILENO, text.data(), text.size());
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return;
    text.remove_prefix(static_cast<std::size_t>(n));
  }
}

void ErrorStream::line(std::string_view text) {
  const std::lock_guard lock(mutex_);
  std::string bytes;
  if (!drawn_.empty()) bytes += erase_line;
  bytes.append(text) += '\n';
  bytes += drawn_;
  put(bytes);
}

void ErrorStream::draw(std::string_view text) {
  if (!looks_.redraws) return;
  const std::lock_guard lock(mutex_);
  drawn_ = base::elided(text, looks_.width - 1);
  put(std::string(erase_line) + drawn_);
}

void ErrorStream::clear() {
  const std::lock_guard lock(mutex_);
  if (!drawn_.empty()) put(erase_line);
  drawn_.clear();
}

LiveText::LiveText() : looks_(looks_of(STDOUT_FILENO)) {}

void LiveText::show(const std::string& text) {
  if (!looks_.redraws) return;
  clear();
  for (const std::string_view line : base::split(text, '\n')) {
    if (line.empty() && line.data() == text.data() + text.size()) break;  // behind the last
    Output::get().line(base::elided(base::visible(line), looks_.width - 1));
    ++rows_;
  }
  Output::get().flush();
}

void LiveText::clear() {
  if (rows_ == 0) return;
  (void)Output::get().write("\x1b[" + std::to_string(rows_) + "A\r\x1b[J");
  rows_ = 0;
}

}  // namespace kairos::cli
