#include "text.hpp"

#include <algorithm>

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

bool is_plain(std::string_view text) {
  unsigned odd = 0;
  for (const char c : text) odd |= static_cast<unsigned>(c < ' ' || c == 0x7F);
  return odd == 0;
}

void assign_tag_value(std::string& into, std::string_view written) {
  if (written.find('\\') == std::string_view::npos) {
    into.assign(written);
  } else {
    into.clear();
    for (std::size_t i = 0; i < written.size(); ++i) {
      const bool escape = written[i] == '\\' && i + 1 < written.size() &&
                          (written[i + 1] == '"' || written[i + 1] == '\\');
      if (escape) ++i;
      into += written[i];
    }
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
    text = base::to_utf8(text);
  }
  std::ranges::replace(text, '}', ')');
  return text;
}

std::string_view cut_text(std::string_view text, std::size_t limit) {
  if (text.size() <= limit) return text;
  text = text.substr(0, limit);
  while (!text.empty() && static_cast<unsigned char>(text.back()) >= 0x80) text.remove_suffix(1);
  return text;
}

}  // namespace kairos::pgn
