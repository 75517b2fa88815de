#include "text.hpp"

#include <algorithm>
#include <cstdint>
#include <cstring>

#include "kairos/base/text.hpp"

namespace kairos::pgn {

namespace {

constexpr bool is_line_end(char c) {
  return c == '\n' || c == '\r';
}
constexpr bool is_blank(char c) {
  return c == ' ' || c == '\t';
}

}  // namespace

namespace {

constexpr std::uint64_t each = 0x0101010101010101;
constexpr std::uint64_t top_bits = each << 7;

// Top bits, those of control characters and of bytes beyond ASCII.
constexpr std::uint64_t odd_bytes(std::uint64_t bytes) {
  const std::uint64_t not_control = (bytes & ~top_bits) + each * (0x80 - ' ');
  return (bytes | (bytes + each) | ~not_control) & top_bits;
}
// Top bits, the lowest that of the first backslash, none when there is none.
constexpr std::uint64_t backslashes(std::uint64_t bytes) {
  const std::uint64_t difference = bytes ^ each * '\\';
  return (difference - each) & ~difference & top_bits;
}

// All that `marks` finds in the text, eight bytes at once; the last come twice if need be.
template <typename Marks>
std::uint64_t all_marks(std::string_view text, Marks marks) {
  std::uint64_t found = 0, bytes = 0;
  if (text.size() < sizeof bytes) {
    for (const char c : text) found |= marks(each * static_cast<unsigned char>(c));
    return found;
  }
  const char* const last = text.data() + text.size() - sizeof bytes;
  for (const char* at = text.data(); at < last; at += sizeof bytes) {
    std::memcpy(&bytes, at, sizeof bytes);
    found |= marks(bytes);
  }
  std::memcpy(&bytes, last, sizeof bytes);
  return found | marks(bytes);
}

}  // namespace

bool is_plain(std::string_view text) {
  return all_marks(text, odd_bytes) == 0;
}

void assign_tag_value(std::string& into, std::string_view written) {
  const auto marks = [](std::uint64_t bytes) { return odd_bytes(bytes) | backslashes(bytes); };
  if (all_marks(written, marks) == 0) {
    into.assign(written);
    return;
  }
  into.clear();
  for (std::size_t i = 0; i < written.size(); ++i) {
    const bool escape = written[i] == '\\' && i + 1 < written.size() &&
                        (written[i + 1] == '"' || written[i + 1] == '\\');
    if (escape) ++i;
    into += written[i];
  }
  if (!is_plain(into)) into = base::to_utf8(into);
}

std::string clean_comment(std::string_view raw) {
  raw = base::trim(raw);
  std::string text(raw);
  if (!is_plain(raw)) {
    text.clear();
    for (std::size_t i = 0; i < raw.size(); ++i) {
      if (!is_line_end(raw[i])) {
        text += raw[i];
        continue;
      }
      while (!text.empty() && is_blank(text.back())) text.pop_back();
      while (i + 1 < raw.size() && (is_line_end(raw[i + 1]) || is_blank(raw[i + 1]))) ++i;
      text += ' ';
    }
    text = base::trim(base::to_utf8(text));  // control bytes are blanks by now
  }
  std::ranges::replace(text, '}', ')');
  return text;
}

std::string_view cut_text(std::string_view text, std::size_t limit) {
  if (text.size() <= limit) return text;
  while (limit > 0 && (static_cast<unsigned char>(text[limit]) & 0xC0) == 0x80) --limit;
  return text.substr(0, limit);
}

}  // namespace kairos::pgn
