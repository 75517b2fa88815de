#include "kairos/base/foreign.hpp"

#include <algorithm>
#include <array>

#include "kairos/base/text.hpp"

namespace kairos::base {

namespace {

struct Range {
  char32_t first, last;
};

constexpr std::array<Range, 9> hidden{{{0xAD, 0xAD},
                                       {0x61C, 0x61C},
                                       {0x180E, 0x180E},
                                       {0x200B, 0x200F},
                                       {0x2028, 0x202E},
                                       {0x2060, 0x206F},
                                       {0xFEFF, 0xFEFF},
                                       {0xFFF9, 0xFFFB},
                                       {0xE0000, 0xE007F}}};

// The blocks of Hebrew, Arabic and their neighbours, and the forms for presentation.
constexpr std::array<Range, 5> right_to_left{
    {{0x590, 0x8FF}, {0xFB1D, 0xFDFF}, {0xFE70, 0xFEFE}, {0x10800, 0x10FFF}, {0x1E800, 0x1EFFF}}};

constexpr char32_t isolate_begin = 0x2068, isolate_end = 0x2069;
constexpr std::string_view begin_mark = "\xE2\x81\xA8", end_mark = "\xE2\x81\xA9";

template <std::size_t size>
bool is_in(const std::array<Range, size>& ranges, char32_t point) {
  return std::any_of(ranges.begin(), ranges.end(), [point](const Range& range) {
    return point >= range.first && point <= range.last;
  });
}

bool runs_from_the_right(std::string_view utf8) {
  while (!utf8.empty()) {
    const Character c = first_character(utf8);
    if (c.point && is_in(right_to_left, *c.point)) return true;
    utf8.remove_prefix(c.size);
  }
  return false;
}

enum class Marks { keep, drop };

std::string without_hidden(std::string_view text, Marks marks) {
  const std::string utf8 = to_utf8(text);
  std::string kept;
  std::size_t open = 0;
  for (std::string_view rest = utf8; !rest.empty();) {
    const Character c = first_character(rest);
    const std::string_view bytes = rest.substr(0, c.size);
    rest.remove_prefix(c.size);
    const bool begins = marks == Marks::keep && c.point == isolate_begin;
    const bool ends = marks == Marks::keep && c.point == isolate_end && open > 0;
    if (begins) ++open;
    if (ends) --open;
    if (begins || ends || !is_hidden(*c.point)) kept += bytes;
  }
  for (; open > 0; --open) kept += end_mark;
  return kept;
}

// "\u202e": the letter says how many digits follow.
std::string escape(char letter, std::uint32_t value, int digits) {
  constexpr std::string_view hexadecimal = "0123456789abcdef";
  std::string text = {'\\', letter};
  for (int shift = 4 * (digits - 1); shift >= 0; shift -= 4)
    text += hexadecimal[value >> shift & 15];
  return text;
}

std::string escape(char32_t point) {
  if (point == '\n') return "\\n";
  if (point == '\r') return "\\r";
  if (point == '\t') return "\\t";
  if (point < 0x80) return escape('x', point, 2);
  return point < 0x10000 ? escape('u', point, 4) : escape('U', point, 8);
}

}  // namespace

bool is_hidden(char32_t point) {
  return is_in(hidden, point);
}

std::string visible(std::string_view text) {
  std::string seen;
  seen.reserve(text.size());
  while (!text.empty()) {
    const Character c = first_character(text);
    if (!c.point) {
      seen += escape('x', static_cast<unsigned char>(text.front()), 2);
    } else if (is_control(*c.point)) {
      seen += escape(*c.point);
    } else if (!is_hidden(*c.point)) {
      seen += text.substr(0, c.size);
    } else if (*c.point != isolate_begin && *c.point != isolate_end) {
      seen += escape(*c.point);
    }
    text.remove_prefix(c.size);
  }
  return seen;
}

std::string stripped(std::string_view text) {
  return without_hidden(text, Marks::drop);
}

std::string isolated(std::string_view text) {
  std::string kept = stripped(text);
  if (!runs_from_the_right(kept)) return kept;
  return std::string(begin_mark).append(kept).append(end_mark);
}

std::string balanced(std::string_view text) {
  return without_hidden(text, Marks::keep);
}

}  // namespace kairos::base
