// The lines of a file of positions (suites, puzzles, known counts) without empty ones and comments
// (#), in memory that is bounded by a line.
//
// A line longer than `longest_epd_line` is a fault and passed over without being kept. Who
// keeps what the lines say reads at most `most_positions` of them and `most_position_bytes` of the
// file, some hundred megabytes as puzzles: with more the reading ends with a failure
// (too_many_positions).
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "kairos/base/lines.hpp"
#include "kairos/base/result.hpp"

namespace kairos::pgn {

inline constexpr std::uint64_t most_positions = 100'000;
inline constexpr std::uint64_t most_position_bytes = std::uint64_t{1} << 26;

class PositionLines {
 public:
  enum class Use { kept, one_by_one };
  struct Line {
    std::string_view text;  // trimmed; until the next call
    std::uint64_t number = 0;
    bool is_too_long = false;  // the text is its front
  };

  // "-" is standard input.
  static base::Result<PositionLines> open(const std::string& file, Use use);

  // Nothing at the end, and when there is a failure.
  std::optional<Line> next();
  [[nodiscard]] const std::optional<base::Fault>& failure() const { return failure_; }

  // What `read` makes of the line's text, or its first fault with the line's place.
  template <typename Read>
  auto make(const Line& line, Read read) const -> decltype(read(line.text)) {
    auto made = line.is_too_long ? decltype(read(line.text))(too_long()) : read(line.text);
    if (made) return made;
    base::Fault fault = made.fault();
    fault.place = {.file = file_, .line = line.number};
    return fault;
  }

 private:
  PositionLines(std::unique_ptr<base::ByteSource> source, std::string file, Use use);
  static base::Fault too_long();

  std::unique_ptr<base::ByteSource> source_;
  std::string file_;
  Use use_;
  base::LineReader lines_;
  std::uint64_t given_ = 0;
  std::optional<base::Fault> failure_;
};

}  // namespace kairos::pgn
