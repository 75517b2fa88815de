// What all HTML pages share: escaping, head, style and end of a page.
//
// A page is one self-contained file: style, pieces and boards stand in it, nothing is loaded from
// elsewhere, no script is needed (the stage has one of ours, and is read without). All text from
// games is hostile input and goes through `escaped`, names and labels through base::isolated
// before.
#pragma once

#include <string>
#include <string_view>

#include "kairos/report/writer.hpp"

namespace kairos::report {

// Text for element content and for attributes in double quotes.
std::string escaped(std::string_view text);

// Up to and with <body> and the definitions of men and board; `own_style` follows that of all
// pages. A page may load itself again every so many seconds; 0: it does not.
std::string page_begin(std::string_view title, std::string_view body_class,
                       std::string_view own_style = "", int load_again = 0);
// The fair-play note and the end.
std::string page_end(const RunFacts& facts);

// Text as a paragraph; nothing of an empty one.
std::string paragraph(std::string_view text, std::string_view css = "");
// A cell of a table of class "cards": on a narrow screen that becomes a list and `label` (plain
// words of ours) stands before the content (markup).
std::string cell(std::string_view label, std::string_view content, std::string_view css = "");

// <details> with `summary` (text) around `content` (markup).
std::string folded(std::string_view summary, std::string_view content);

// The style sheet, and the men and board as SVG definitions (html_style.cpp, html_pieces.cpp).
std::string_view style_sheet();
std::string diagram_definitions();

}  // namespace kairos::report
