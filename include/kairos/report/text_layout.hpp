// Plain text on a page of fixed width: wrapping, padding, columns side by side, board diagrams.
//
// Widths count characters (code points of UTF-8) that are not hidden (base/foreign.hpp), not bytes;
// combining marks count as one too, so columns of rare scripts may be off by some. Rows carry no
// newline and no trailing blanks.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/rules/position.hpp"

namespace kairos::report {

inline constexpr std::size_t page_width = 80;

using Rows = std::vector<std::string>;

// Words filled into rows of at most `width`; the first row starts after `first`, the others are
// indented to the same place. A word longer than the row is broken.
Rows wrapped(std::string_view text, std::size_t width, std::string_view first = "");

// Exactly `width` characters: blanks at the end (or the front), or cut with "~" at the cut.
std::string fitted(std::string_view text, std::size_t width);
std::string fitted_right(std::string_view text, std::size_t width);

// The rows of `right` beside those of `left`, which take `left_width` characters.
Rows beside(const Rows& left, std::size_t left_width, const Rows& right);

// The board seen from `view`: capitals are White's, dots stand on dark empty squares.
Rows board_rows(const rules::Position& position, rules::Color view);

std::string rule_row(char mark);
// Each row with its line end; a text that is isolated in it ends with it.
void append(std::string& text, const Rows& rows);

}  // namespace kairos::report
