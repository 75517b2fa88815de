// What the one who runs a count asks for while answers come: to show the answer, to go on to the
// next question, to end. A key is a line: empty for the next step, or a word.
//
// Where answers come through a pipe, keys are typed at the terminal of the program (/dev/tty), if
// it has one and is in its foreground; where they are typed by hand, between them.
#pragma once

#include <optional>
#include <string_view>

#include "line_input.hpp"

namespace kairos::cli {

enum class TallyKey { step, reveal, next, quit };

// "", "reveal", "next", "quit", or their first letters; nothing for any other line.
std::optional<TallyKey> tally_key(std::string_view line);

class TerminalKeys {
 public:
  TerminalKeys();
  TerminalKeys(const TerminalKeys&) = delete;
  TerminalKeys& operator=(const TerminalKeys&) = delete;
  ~TerminalKeys();

  [[nodiscard]] bool can_be_typed() const { return input_.has_value(); }
  // The one typed next, if any; never waits. `was_typed`: a line came, of whatever words.
  std::optional<TallyKey> next(bool& was_typed);

 private:
  int terminal_ = -1;
  std::optional<LineInput> input_;
};

}  // namespace kairos::cli
