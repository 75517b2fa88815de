// Standard input line by line, as a person types it; the same on a pipe.
#pragma once

#include <array>
#include <atomic>
#include <cstddef>
#include <optional>
#include <string>

namespace kairos::cli {

class LineInput {
 public:
  // Waits for the next line and gives it without its end; what is longer than `longest` bytes is
  // cut, and the rest of the line passed over. Nothing at the end of the input, where it cannot be
  // read, and once `stop` is set.
  std::optional<std::string> next(std::size_t longest, const std::atomic<bool>& stop);

 private:
  bool fill(const std::atomic<bool>& stop);

  std::array<char, 4096> room_{};
  std::size_t at_ = 0;
  std::size_t end_ = 0;
};

}  // namespace kairos::cli
