#include "html_diagram.hpp"

#include <array>
#include <string_view>

#include "kairos/rules/bitboard.hpp"

#include "html_page.hpp"

namespace kairos::report {

namespace {

// Places are counted in tenths of a square, so that all numbers are whole until printed.
std::string tenths(int value) {
  std::string text = value < 0 ? "-" : "";
  const int size = value < 0 ? -value : value;
  if (size >= 10 || size == 0) text += std::to_string(size / 10);
  if (size % 10 != 0) text += "." + std::to_string(size % 10);
  return text;
}

struct Spot {
  int x, y;  // of the square's upper left corner, in squares
};

Spot spot_of(rules::Square square, rules::Color view) {
  const int file = rules::file_of(square), rank = rules::rank_of(square);
  if (view == rules::white) return {file, 7 - rank};
  return {7 - file, rank};
}

std::string men(const rules::Position& position, rules::Color color, rules::Color view) {
  std::string svg = color == rules::white ? "<g class=\"w\">" : "<g class=\"b\">";
  for (int s = 0; s < rules::square_count; ++s) {
    const auto square = static_cast<rules::Square>(s);
    const rules::Piece piece = position.piece_on(square);
    if (piece == rules::no_piece || rules::color_of(piece) != color) continue;
    const Spot spot = spot_of(square, view);
    svg += "<use href=\"#m";
    svg += rules::letter_of(rules::make_piece(rules::black, rules::type_of(piece)));
    svg += "\" x=\"" + std::to_string(spot.x) + "\" y=\"" + std::to_string(spot.y) + "\"/>";
  }
  return svg + "</g>";
}

// The square left is a hollow dot, the square reached a frame: different in shape, not in colour.
std::string last_move(rules::Move move, rules::Color view) {
  const Spot from = spot_of(move.from(), view), to = spot_of(move.to(), view);
  return "<circle class=\"left\" cx=\"" + tenths(from.x * 10 + 5) + "\" cy=\"" +
         tenths(from.y * 10 + 5) + "\" r=\".16\"/><use href=\"#fr\" x=\"" + std::to_string(to.x) +
         "\" y=\"" + std::to_string(to.y) + "\"/>";
}

std::string arrow(rules::Move move, rules::Color view) {
  const Spot from = spot_of(move.from(), view), to = spot_of(move.to(), view);
  return "<path class=\"played\" marker-end=\"url(#tip)\" d=\"M" + tenths(from.x * 10 + 5) + " " +
         tenths(from.y * 10 + 5) + "L" + tenths(to.x * 10 + 5) + " " + tenths(to.y * 10 + 5) +
         "\"/>";
}

std::string squares_of(const rules::Position& position, rules::Color color, rules::PieceType type) {
  std::string list;
  for (int s = 0; s < rules::square_count; ++s) {
    const auto square = static_cast<rules::Square>(s);
    if (position.piece_on(square) != rules::make_piece(color, type)) continue;
    if (!list.empty()) list += " ";
    list += rules::to_string(square);
  }
  return list;
}

std::string side_described(const rules::Position& position, rules::Color color) {
  constexpr std::array<std::string_view, 6> names{"pawn", "knight", "bishop",
                                                  "rook", "queen",  "king"};
  std::string text;
  for (const auto type :
       {rules::king, rules::queen, rules::rook, rules::bishop, rules::knight, rules::pawn}) {
    const std::string squares = squares_of(position, color, type);
    if (squares.empty()) continue;
    if (!text.empty()) text += ", ";
    text += std::string(names[type]) + (squares.size() > 2 ? "s " : " ") + squares;
  }
  return text;
}

}  // namespace

std::string described(const rules::Position& position) {
  const bool white = position.side_to_move() == rules::white;
  return std::string(white ? "White" : "Black") +
         " to move. White: " + side_described(position, rules::white) +
         ". Black: " + side_described(position, rules::black) + ".";
}

std::string diagram(const rules::Position& position, const Marks& marks) {
  const rules::Color view = position.side_to_move();
  std::string svg = "<svg class=\"dia\" viewBox=\"-.6 -.1 8.7 8.7\" role=\"img\"><title>" +
                    escaped(described(position)) + "</title><use href=\"#bd\"/><use href=\"#c" +
                    (view == rules::white ? "w" : "b") + "\"/>";
  if (marks.last && marks.last != rules::null_move) svg += last_move(marks.last, view);
  svg += men(position, rules::white, view) + men(position, rules::black, view);
  if (marks.played) svg += arrow(marks.played, view);
  return svg + "</svg>\n";
}

}  // namespace kairos::report
