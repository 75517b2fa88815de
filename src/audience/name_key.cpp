#include "name_key.hpp"

#include "kairos/base/text.hpp"

namespace kairos::audience {

namespace {

bool is_blank(char32_t point) {
  return point <= 0x20 || point == 0xA0 || (point >= 0x2000 && point <= 0x200A) ||
         point == 0x202F || point == 0x3000;
}

// Of U+0100 to U+017F small and capital letters alternate: the capital is even but where the odd
// ones are.
char32_t small_of_latin_a(char32_t point) {
  const bool alone = point == 0x130 || point == 0x131 || point == 0x138 || point == 0x149 ||
                     point == 0x178 || point == 0x17F;
  if (alone) return point == 0x178 ? 0xFF : point;
  const bool odd_is_capital = (point >= 0x139 && point <= 0x148) || point >= 0x179;
  return (point % 2 == 1) == odd_is_capital ? point + 1 : point;
}

// The small letter of a capital (Unicode, simple case folding, of these blocks).
char32_t small(char32_t point) {
  if (point >= U'A' && point <= U'Z') return point + 0x20;
  if (point >= 0xC0 && point <= 0xDE && point != 0xD7) return point + 0x20;
  if (point >= 0x100 && point <= 0x17F) return small_of_latin_a(point);
  if (point >= 0x391 && point <= 0x3A9 && point != 0x3A2) return point + 0x20;
  if (point >= 0x400 && point <= 0x40F) return point + 0x50;
  if (point >= 0x410 && point <= 0x42F) return point + 0x20;
  return point;
}

// All that `small` changes has at most two bytes, before and after.
void add(std::string& text, char32_t point) {
  if (point < 0x80) {
    text += static_cast<char>(point);
  } else {
    text += static_cast<char>(0xC0 | (point >> 6));
    text += static_cast<char>(0x80 | (point & 0x3F));
  }
}

}  // namespace

std::string name_key(std::string_view name) {
  std::string key;
  bool blank = false;
  for (std::size_t at = 0; at < name.size();) {
    const base::Character next = base::first_character(name.substr(at));
    const std::string_view bytes = name.substr(at, next.size);
    at += next.size;
    if (next.point && is_blank(*next.point)) {
      blank = true;
      continue;
    }
    if (key.empty() && bytes == "@") continue;
    if (blank && !key.empty()) key += ' ';
    blank = false;
    if (next.point && *next.point < 0x800) {
      add(key, small(*next.point));
    } else {
      key += bytes;
    }
  }
  return key.empty() ? std::string(name) : key;
}

}  // namespace kairos::audience
