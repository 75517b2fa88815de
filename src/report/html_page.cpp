#include "html_page.hpp"

#include "kairos/base/foreign.hpp"

namespace kairos::report {

std::string escaped(std::string_view text) {
  // What is no UTF-8 would make the page invalid, and control characters have no place in HTML.
  const std::string seen = base::balanced(text);
  std::string safe;
  safe.reserve(seen.size());
  for (const char c : seen) {
    switch (c) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      case '\'':
        safe += "&#39;";
        break;
      default:
        safe += c;
    }
  }
  return safe;
}

// The colour scheme is named so that scroll bars and form parts follow it too.
std::string page_begin(std::string_view title, std::string_view body_class,
                       std::string_view own_style, int load_again) {
  std::string html =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"color-scheme\" content=\"light dark\">\n";
  if (load_again > 0) {
    html += "<meta http-equiv=\"refresh\" content=\"" + std::to_string(load_again) + "\">\n";
  }
  html += "<title>";
  html += escaped(title);
  html += "</title>\n<style>\n";
  html += style_sheet();
  html += own_style;
  html += "</style>\n</head>\n<body class=\"" + std::string(body_class) + "\">\n";
  return html + diagram_definitions();
}

std::string page_end(const RunFacts& facts) {
  return "<footer>\n<p>Made by kairos " + escaped(base::stripped(facts.version)) +
         ". For games that are over: help from any source during play is forbidden (FIDE Laws of "
         "Chess, article 11.3).</p>\n</footer>\n</body>\n</html>\n";
}

std::string paragraph(std::string_view text, std::string_view css) {
  if (text.empty()) return "";
  std::string html = "<p";
  if (!css.empty()) html += " class=\"" + std::string(css) + "\"";
  return html + ">" + escaped(text) + "</p>\n";
}

std::string cell(std::string_view label, std::string_view content, std::string_view css) {
  std::string html = "<td";
  if (!css.empty()) html += " class=\"" + std::string(css) + "\"";
  if (!label.empty()) html += " data-label=\"" + std::string(label) + "\"";
  return html + ">" + std::string(content) + "</td>";
}

std::string folded(std::string_view summary, std::string_view content) {
  return "<details><summary>" + escaped(summary) + "</summary>" + std::string(content) +
         "</details>";
}

}  // namespace kairos::report
