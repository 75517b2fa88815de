#include "kairos/report/text_layout.hpp"

#include <algorithm>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"

namespace kairos::report {

namespace {

// Hidden characters, such as the marks round an isolated text, take no room.
std::size_t width_of(const base::Character& c) {
  return c.point && base::is_hidden(*c.point) ? 0 : 1;
}

std::size_t width_of(std::string_view text) {
  std::size_t width = 0;
  while (!text.empty()) {
    const base::Character c = base::first_character(text);
    width += width_of(c);
    text.remove_prefix(c.size);
  }
  return width;
}

// How many bytes at the front fit into `width`.
std::size_t bytes_of(std::string_view text, std::size_t width) {
  std::size_t at = 0;
  for (std::size_t used = 0; at < text.size();) {
    const base::Character c = base::first_character(text.substr(at));
    used += width_of(c);
    if (used > width) break;
    at += c.size;
  }
  return at;
}

std::string without_trailing_blanks(std::string row) {
  row.erase(row.find_last_not_of(' ') + 1);
  return row;
}

// Blank-separated words, but a move number ("12.", "12...") stays with its move.
std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  bool glue = false;
  for (const std::string_view field : base::fields(text)) {
    if (glue) {
      words.back().append(" ").append(field);
    } else {
      words.emplace_back(field);
    }
    const auto digits = field.find_first_not_of("0123456789");
    glue = digits > 0 && digits != std::string_view::npos &&
           field.find_first_not_of('.', digits) == std::string_view::npos;
  }
  return words;
}

}  // namespace

Rows wrapped(std::string_view text, std::size_t width, std::string_view first) {
  // Rows after the first hang under the first one's text.
  const std::string indent(width_of(first), ' ');
  const std::size_t room = width > indent.size() + 1 ? width - indent.size() : 1;
  Rows rows;
  std::string row;
  const auto finish = [&] {
    rows.push_back(without_trailing_blanks((rows.empty() ? std::string(first) : indent) + row));
    row.clear();
  };
  const std::vector<std::string> words = words_of(text);
  for (std::string_view word : words) {
    while (!word.empty()) {
      const std::size_t used = width_of(row);
      const std::size_t gap = used == 0 ? 0 : 1;
      const std::size_t size = width_of(word);
      if (used + gap + size <= room) {
        row.append(gap, ' ').append(word);
        break;
      }
      if (used > 0) {
        finish();
        continue;
      }
      const std::size_t bytes = bytes_of(word, room);
      row.append(word.substr(0, bytes));
      word.remove_prefix(bytes);
      finish();
    }
  }
  if (!row.empty() || rows.empty()) finish();
  return rows;
}

std::string fitted(std::string_view text, std::size_t width) {
  const std::size_t size = width_of(text);
  if (size <= width) return std::string(text) + std::string(width - size, ' ');
  if (width == 0) return "";
  return base::balanced(text.substr(0, bytes_of(text, width - 1))) + "~";
}

std::string fitted_right(std::string_view text, std::size_t width) {
  const std::size_t size = width_of(text);
  if (size >= width) return fitted(text, width);
  return std::string(width - size, ' ') + std::string(text);
}

// The shorter side is filled up with blank rows.
Rows beside(const Rows& left, std::size_t left_width, const Rows& right) {
  Rows rows;
  for (std::size_t i = 0; i < std::max(left.size(), right.size()); ++i) {
    std::string row = fitted(i < left.size() ? left[i] : "", left_width);
    if (i < right.size()) row += right[i];
    rows.push_back(without_trailing_blanks(std::move(row)));
  }
  return rows;
}

// A frame, ranks at the left, files below. Light empty squares are blank and dark ones dotted, so
// that diagonals can be followed.
Rows board_rows(const rules::Position& position, rules::Color view) {
  const bool from_white = view == rules::white;
  Rows rows{"    +-----------------+"};
  std::string files = "     ";
  for (int y = 0; y < 8; ++y) {
    const int rank = from_white ? 7 - y : y;
    std::string row = "  " + std::string(1, static_cast<char>('1' + rank)) + " |";
    for (int x = 0; x < 8; ++x) {
      const rules::Square square = rules::square_at(from_white ? x : 7 - x, rank);
      const rules::Piece piece = position.piece_on(square);
      row += ' ';
      if (piece != rules::no_piece)
        row += rules::letter_of(piece);
      else
        row += rules::is_dark(square) ? '.' : ' ';
    }
    rows.push_back(row + " |");
    files += {' ', static_cast<char>('a' + (from_white ? y : 7 - y))};
  }
  rows.push_back("    +-----------------+");
  rows.push_back(files);
  return rows;
}

std::string rule_row(char mark) {
  return std::string(page_width, mark);
}

void append(std::string& text, const Rows& rows) {
  for (const std::string& row : rows) text.append(base::balanced(row)).append(1, '\n');
}

}  // namespace kairos::report
