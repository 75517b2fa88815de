#include "tally_keys.hpp"

#include <fcntl.h>
#include <string>
#include <unistd.h>

#include "kairos/base/text.hpp"

namespace kairos::cli {

std::optional<TallyKey> tally_key(std::string_view line) {
  const std::string word = base::lower_case(base::trim(line));
  if (word.empty()) return TallyKey::step;
  if (word == "reveal" || word == "r") return TallyKey::reveal;
  if (word == "next" || word == "n") return TallyKey::next;
  if (word == "quit" || word == "q") return TallyKey::quit;
  return std::nullopt;
}

TerminalKeys::TerminalKeys() : terminal_(::open("/dev/tty", O_RDONLY | O_CLOEXEC)) {
  if (terminal_ >= 0) input_.emplace(terminal_);
}

TerminalKeys::~TerminalKeys() {
  if (terminal_ >= 0) ::close(terminal_);
}

std::optional<TallyKey> TerminalKeys::next(bool& was_typed) {
  constexpr std::size_t longest_key = 20;
  was_typed = false;
  // A program in the background is stopped when it reads.
  if (!input_ || ::tcgetpgrp(terminal_) != ::getpgrp()) return std::nullopt;
  std::string line;
  const LineInput::State state = input_->next(line, longest_key, 0);
  if (state == LineInput::State::ended) input_.reset();
  was_typed = state == LineInput::State::line;
  return was_typed ? tally_key(line) : std::nullopt;
}

}  // namespace kairos::cli
