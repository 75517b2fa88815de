// A ByteSource line by line, in memory that is bounded whatever the bytes are.
//
// A line ends with a line feed, which is not given, or with the source. Of a line longer than the
// reader's `longest` bytes only so many are kept; the rest is counted and passed over. At most
// `longest` and two pieces of 64 KB are in memory. Not thread-safe; the source must outlive the
// reader.
//
//   LineReader lines(source, 4096);
//   while (const auto line = lines.next()) use(line->text);
//   if (lines.failure()) tell(*lines.failure());
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/bytes.hpp"

namespace kairos::base {

struct TextLine {
  std::string_view text;     // until the next call
  std::uint64_t size = 0;    // in the source, without the line feed: more than the text's when cut
  std::uint64_t number = 0;  // from 1
  std::uint64_t offset = 0;  // of its first byte in the source
  bool is_ended = true;      // by a line feed; only the last may lack it

  [[nodiscard]] bool is_cut() const { return size > text.size(); }
};

class LineReader {
 public:
  LineReader(ByteSource& source, std::size_t longest);

  // Nothing at the end, and when the source fails.
  std::optional<TextLine> next();
  [[nodiscard]] const std::optional<Fault>& failure() const { return failure_; }
  // Bytes behind which all lines so far end, their line feeds included.
  [[nodiscard]] std::uint64_t bytes() const { return bytes_; }

 private:
  bool fill();
  void keep(std::string_view part);

  ByteSource& source_;
  std::size_t longest_;
  std::vector<char> piece_;
  std::size_t at_ = 0, end_ = 0;  // of what was not given yet, in the piece
  std::string begun_;             // the front of a line that began in an earlier piece
  std::uint64_t bytes_ = 0;
  std::uint64_t number_ = 0;
  std::optional<Fault> failure_;
};

}  // namespace kairos::base
