// Standard input, or a terminal, line by line, as people or other programs write it: without
// waiting longer than asked, and without keeping more of a line than is wanted. A line ends with a
// line feed, a carriage return or both, whichever system it comes from.
#pragma once

#include <array>
#include <atomic>
#include <optional>
#include <string>

namespace kairos::cli {

class LineInput {
 public:
  enum class State {
    line,     // there is one, without its end
    waiting,  // none has come in time, or only a part of one, or a signal came first
    ended     // there will be none
  };
  // Of a descriptor that stays the caller's.
  explicit LineInput(int descriptor = 0) : descriptor_(descriptor) {}
  // Of the line its first `longest` bytes; the rest of a longer one is passed over.
  State next(std::string& line, std::size_t longest, int milliseconds);
  // Waits for the next line; nothing where there will be none, or `stop` is set meanwhile.
  std::optional<std::string> wait(std::size_t longest, const std::atomic<bool>& stop);

 private:
  State fill(int milliseconds);

  int descriptor_;
  std::array<char, 1 << 16> room_{};
  std::size_t at_ = 0;
  std::size_t end_ = 0;
  std::string begun_;          // of a line whose end has not come
  bool any_ = false;           // a line has begun, though it may be empty
  bool after_return_ = false;  // a line feed that comes next belongs to the line end before
};

}  // namespace kairos::cli
