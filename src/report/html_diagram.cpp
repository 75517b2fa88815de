#include "html_diagram.hpp"

#include <string_view>

#include "kairos/report/words.hpp"
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

// Seen from Black the board is turned by half, files and ranks both.
struct Spot {
  int x, y;  // of the square's upper left corner, in squares
};

Spot spot_of(rules::Square square, rules::Color view) {
  const int file = rules::file_of(square), rank = rules::rank_of(square);
  if (view == rules::white) return {file, 7 - rank};
  return {7 - file, rank};
}

// One path for all men of a kind and colour; its vertices carry the marker that draws them.
std::string men(const rules::Position& position, rules::Piece piece, rules::Color view) {
  std::string places;
  for (int s = 0; s < rules::square_count; ++s) {
    const auto square = static_cast<rules::Square>(s);
    if (position.piece_on(square) != piece) continue;
    const Spot spot = spot_of(square, view);
    places += (places.empty() ? "M" : "L") + std::to_string(spot.x) + " " + std::to_string(spot.y);
  }
  if (places.empty()) return "";
  const std::string color = rules::color_of(piece) == rules::white ? "w" : "b";
  const char letter = rules::letter_of(rules::make_piece(rules::black, rules::type_of(piece)));
  return "<path class=\"" + color + letter + "\" d=\"" + places + "\"/>";
}

// The square left is a hollow dot, the square reached a frame: different in shape, not in colour.
std::string last_move(rules::Move move, rules::Color view) {
  const Spot from = spot_of(move.from(), view), to = spot_of(move.to(), view);
  return "<circle class=\"left\" cx=\"" + tenths(from.x * 10 + 5) + "\" cy=\"" +
         tenths(from.y * 10 + 5) + "\" r=\".16\"/><path class=\"came\" d=\"M" +
         std::to_string(to.x) + ".06 " + std::to_string(to.y) + ".06h.88v.88h-.88z\"/>";
}

// "played" is broken, "avoided" dotted, "better" whole: shapes tell them apart, and from the marks
// of the last move.
std::string arrow(std::string_view css, rules::Move move, rules::Color view) {
  const Spot from = spot_of(move.from(), view), to = spot_of(move.to(), view);
  return "<path class=\"" + std::string(css) + "\" marker-end=\"url(#tip)\" d=\"M" +
         tenths(from.x * 10 + 5) + " " + tenths(from.y * 10 + 5) + "L" + tenths(to.x * 10 + 5) +
         " " + tenths(to.y * 10 + 5) + "\"/>";
}

// One path for all; its vertices carry the ring.
std::string rings(const std::vector<rules::Square>& squares, rules::Color view) {
  std::string places;
  for (const rules::Square square : squares) {
    const Spot spot = spot_of(square, view);
    places += (places.empty() ? "M" : "L") + std::to_string(spot.x) + " " + std::to_string(spot.y);
  }
  return "<path class=\"ringed\" d=\"" + places + "\"/>";
}

// " Ringed: e5, g7."
std::string ringed_words(const std::vector<rules::Square>& squares) {
  std::string text;
  for (const rules::Square square : squares) {
    text += (text.empty() ? " Ringed: " : ", ") + rules::to_string(square);
  }
  return text.empty() ? "" : text + ".";
}

// "f2 g2 h2", in the order of the squares.
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

// The king first, as one sets up a position from a book.
std::string side_described(const rules::Position& position, rules::Color color) {
  std::string text;
  for (const auto type :
       {rules::king, rules::queen, rules::rook, rules::bishop, rules::knight, rules::pawn}) {
    const std::string squares = squares_of(position, color, type);
    if (squares.empty()) continue;
    if (!text.empty()) text += ", ";
    text += std::string(words(type)) + (squares.size() > 2 ? "s " : " ") + squares;
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

std::string diagram_key() {
  return "<p class=\"small\">In the diagrams: a dot and a broken frame for the last move, a broken "
         "arrow for the move that was wrong, a dotted one for a wrong move that was not played, a "
         "whole arrow for the right one, a ring around what the text speaks of.</p>\n";
}

std::string diagram(const rules::Position& position, const Marks& marks) {
  const rules::Color view = position.side_to_move();
  std::string svg = "<svg class=\"dia\" viewBox=\"-.6 -.1 8.7 8.7\" role=\"img\"><title>" +
                    escaped(described(position) + ringed_words(marks.squares)) +
                    "</title><path class=\"board " + (view == rules::white ? "cw" : "cb") +
                    "\" d=\"M0 0h8v8h-8z\"/>";
  if (marks.last && marks.last != rules::null_move) svg += last_move(marks.last, view);
  if (!marks.squares.empty()) svg += rings(marks.squares, view);
  for (const auto color : {rules::white, rules::black}) {
    for (const auto type :
         {rules::pawn, rules::knight, rules::bishop, rules::rook, rules::queen, rules::king}) {
      svg += men(position, rules::make_piece(color, type), view);
    }
  }
  if (marks.better) svg += arrow("better", marks.better, view);
  if (marks.played) svg += arrow("played", marks.played, view);
  if (marks.avoided) svg += arrow("avoided", marks.avoided, view);
  return svg + "</svg>";
}

}  // namespace kairos::report
