// The steps of lines in HTML pages, done to a board the slow and obvious way, as the pages' script
// is to do them (src/report/html_line.hpp has how they are written).
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "kairos/rules/position.hpp"

namespace kairos::test {

using Men = std::map<std::string, char>;  // square to letter of FEN

inline Men men_of(const rules::Position& position) {
  Men men;
  for (int s = 0; s < rules::square_count; ++s) {
    const auto square = static_cast<rules::Square>(s);
    const rules::Piece piece = position.piece_on(square);
    if (piece != rules::no_piece) men[rules::to_string(square)] = rules::letter_of(piece);
  }
  return men;
}

inline Men stepped(Men men, std::string_view step) {
  if (step == "--") return men;
  const auto at = [&](std::size_t n) { return std::string(step.substr(n, 2)); };
  const auto move = [&men](const std::string& from, const std::string& to) {
    men[to] = men.at(from);
    men.erase(from);
  };
  move(at(0), at(2));
  if (step.size() == 5) men[at(2)] = step[4];
  if (step.size() == 6) men.erase(at(4));
  if (step.size() == 8) move(at(4), at(6));
  return men;
}

}  // namespace kairos::test
