#include "kairos/base/text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace kairos::base {

std::string fixed(double value, int places) {
  std::array<char, 64> room;
  const auto end =
      std::to_chars(room.data(), room.data() + room.size(), value, std::chars_format::fixed, places)
          .ptr;
  std::string text(room.data(), end);
  if (text[0] == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
  return text;
}

std::string number(std::int64_t value) {
  std::array<char, 24> room;
  return {room.data(), std::to_chars(room.data(), room.data() + room.size(), value).ptr};
}

std::string grouped(std::uint64_t value) {
  std::string text = std::to_string(value);
  for (std::size_t at = text.size(); at > 3;) text.insert(at -= 3, 1, ',');
  return text;
}

std::string counted(std::uint64_t count, std::string_view one, std::string_view many) {
  std::string text = grouped(count) + " ";
  if (count == 1) return text.append(one);
  return many.empty() ? text.append(one) += 's' : text.append(many);
}

std::optional<std::int64_t> to_integer(std::string_view text) {
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::string_view trim(std::string_view text) {
  constexpr std::string_view blank = " \t\r\n\f\v";
  const auto begin = text.find_first_not_of(blank);
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(blank) - begin + 1);
}

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  for (;;) {
    const auto at = text.find(separator);
    parts.push_back(text.substr(0, at));
    if (at == std::string_view::npos) return parts;
    text.remove_prefix(at + 1);
  }
}

std::vector<std::string_view> fields(std::string_view text) {
  std::vector<std::string_view> parts;
  while (!(text = trim(text)).empty()) {
    const auto end = text.find_first_of(" \t\r\n\f\v");
    parts.push_back(text.substr(0, end));
    text.remove_prefix(parts.back().size());
  }
  return parts;
}

std::string join(const std::vector<std::string>& parts, std::string_view separator) {
  std::string text;
  for (const std::string& part : parts) {
    if (&part != &parts.front()) text += separator;
    text += part;
  }
  return text;
}

namespace {

// Length of the well-formed UTF-8 sequence at the front (RFC 3629), or 0.
std::size_t sequence_length(std::string_view text) {
  const auto byte = [&text](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned lead = byte(0);
  if (lead < 0x80) return 1;
  const std::size_t length = lead < 0xC2   ? 0
                             : lead < 0xE0 ? 2
                             : lead < 0xF0 ? 3
                             : lead < 0xF5 ? 4
                                           : 0;
  if (length == 0 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return 0;
  }
  const bool overlong = (lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xF0 && byte(1) < 0x90);
  const bool out_of_range = (lead == 0xED && byte(1) > 0x9F) || (lead == 0xF4 && byte(1) > 0x8F);
  return overlong || out_of_range ? 0 : length;
}

}  // namespace

bool is_valid_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = sequence_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

Character first_character(std::string_view text) {
  const std::size_t size = sequence_length(text);
  if (size == 0) return {std::nullopt, 1};
  const auto byte = [&text](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  if (size == 1) return {byte(0), 1};
  char32_t point = byte(0) & (0x7Fu >> size);
  for (std::size_t i = 1; i < size; ++i) point = point << 6 | (byte(i) & 0x3Fu);
  return {point, size};
}

bool is_control(char32_t point) {
  return point < 0x20 || (point >= 0x7F && point < 0xA0);
}

std::string to_utf8(std::string_view bytes) {
  constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD
  const bool latin = !is_valid_utf8(bytes);
  std::string text;
  text.reserve(bytes.size());
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const auto byte = static_cast<unsigned char>(bytes[i]);
    const auto next = i + 1 < bytes.size() ? static_cast<unsigned char>(bytes[i + 1]) : 0u;
    if (byte < 0x20 || byte == 0x7F) {
      text += ' ';
    } else if (latin && byte >= 0x80 && byte < 0xA0) {
      text += replacement;
    } else if (!latin && byte == 0xC2 && next < 0xA0) {
      text += replacement;
      ++i;
    } else if (latin && byte >= 0x80) {
      text += static_cast<char>(0xC0 | byte >> 6);
      text += static_cast<char>(0x80 | (byte & 0x3F));
    } else {
      text += bytes[i];
    }
  }
  return text;
}

std::string_view cut(std::string_view text, std::size_t most) {
  if (text.size() <= most) return text;
  for (int n = 0; n < 3 && most > 0; ++n) {
    if ((static_cast<unsigned char>(text[most]) & 0xC0) != 0x80) break;
    --most;
  }
  return text.substr(0, most);
}

std::size_t character_count(std::string_view utf8) {
  std::size_t n = 0;
  for (const char c : utf8) n += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  return n;
}

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

// Rows of the classic table: row i holds the distances of a's first i letters to each front of b.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> row(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) {
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        row[i][j] = i + j;
        continue;
      }
      row[i][j] = std::min({row[i - 1][j] + 1, row[i][j - 1] + 1,
                            row[i - 1][j - 1] + (a[i - 1] != b[j - 1] ? 1U : 0U)});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[i][j] = std::min(row[i][j], row[i - 2][j - 2] + 1);
    }
  }
  return row[a.size()][b.size()];
}

std::string elided(std::string_view utf8, std::size_t width) {
  constexpr std::string_view dots = "...";
  const std::size_t room = std::max(width, dots.size());
  if (character_count(utf8) <= room) return std::string(utf8);
  std::size_t end = 0;
  const auto starts_character = [&utf8](std::size_t at) {
    return (static_cast<unsigned char>(utf8[at]) & 0xC0) != 0x80;
  };
  for (std::size_t characters = 0; end < utf8.size(); ++end) {
    if (starts_character(end) && characters++ == room - dots.size()) break;
  }
  return std::string(utf8.substr(0, end)).append(dots);
}

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  const std::size_t most = std::max<std::size_t>(2, word.size() / 3);
  std::string best;
  std::size_t least = most + 1;
  for (const std::string& candidate : known) {
    const std::size_t shorter = std::min(word.size(), candidate.size());
    if (std::max(word.size(), candidate.size()) - shorter >= least) continue;  // letters put in
    const std::size_t distance = edit_distance(word, candidate);
    if (distance >= least || distance >= candidate.size()) continue;
    least = distance;
    best = candidate;
  }
  return best;
}

}  // namespace kairos::base
