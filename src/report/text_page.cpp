#include "text_page.hpp"

#include "kairos/report/text_layout.hpp"

namespace kairos::report {

std::string text_heading(std::string_view title) {
  return "\n" + rule_row('=') + "\n" + std::string(title) + "\n" + rule_row('=') + "\n\n";
}

std::string capitals(std::string text) {
  for (char& c : text) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return text;
}

std::string without_blanks(std::string_view text) {
  std::string letters;
  for (const char c : text) {
    if (c != ' ' && c != '\n') letters += c;
  }
  return letters;
}

std::string text_head(std::string_view text) {
  if (!text.starts_with(text_mark)) return "";
  const std::string_view head = text.substr(0, text.find("\n\n"));
  const auto end = head.find(':');  // of the version
  return end == std::string_view::npos ? "" : without_blanks(head.substr(end + 1));
}

std::string text_closing() {
  std::string text = "\n" + rule_row('=') + "\n";
  append(text, wrapped("Fair play: kairos is for games that are over. Help from any source during "
                       "play is forbidden (FIDE Laws of Chess, article 11.3).",
                       page_width));
  return text;
}

}  // namespace kairos::report
