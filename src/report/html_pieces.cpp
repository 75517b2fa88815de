// The men and the board as definitions that every diagram of a page refers to.
//
// Dark squares are hatched as in printed books, so nothing depends on colour. The widths of the
// men's lines stand in the style sheet, those of outlines.hpp.
#include <string>

#include "html_page.hpp"
#include "outlines.hpp"

namespace kairos::report {

namespace {

// A man is a marker: a path with the marker's class draws it at every vertex, so one element shows
// all men of a kind and the browser copies nothing (`use` would build a tree for each man).
std::string man(rules::PieceType type, char color) {
  const ManOutline outline = outline_of(type);
  const std::string shape(outline.shape);
  return std::string("<marker id=\"") + color +
         rules::letter_of(rules::make_piece(rules::black, type)) +
         "\" viewBox=\"0 0 256 256\" markerWidth=\"1\" markerHeight=\"1\" "
         "markerUnits=\"userSpaceOnUse\" overflow=\"visible\"><path class=\"rim\" d=\"" +
         shape + "\"/><path class=\"man " + color + "\" d=\"" + shape + "\"/><path class=\"det " +
         color + "\" d=\"" + std::string(outline.details) + "\"/></marker>\n";
}

// Two by two squares as a tile: the upper left one is light, from either side of the board.
std::string board() {
  std::string hatch;
  for (int step = 1; step <= 15; ++step) {
    // Lines from lower left to upper right, an eighth of a square apart, cut to the square.
    const int low = step > 8 ? step - 8 : 0, high = step < 8 ? step : 8;
    const auto eighths = [](int n) { return std::to_string(n * 125); };
    hatch += "M" + eighths(low) + " " + eighths(high) + "L" + eighths(high) + " " + eighths(low);
  }
  return "<pattern id=\"squares\" width=\"2\" height=\"2\" patternUnits=\"userSpaceOnUse\"><path "
         "class=\"paper\" d=\"M0 0h2v2h-2z\"/><path class=\"hatch\" "
         "transform=\"translate(1)scale(.001)\" d=\"" +
         hatch + "\"/><path class=\"hatch\" transform=\"translate(0 1)scale(.001)\" d=\"" + hatch +
         "\"/></pattern>\n<marker id=\"tip\" viewBox=\"0 0 10 10\" refX=\"8\" refY=\"5\" "
         "markerWidth=\"4\" markerHeight=\"4\" orient=\"auto\"><path class=\"tip\" d=\"M0 0L10 "
         "5L0 10z\"/></marker>\n<marker id=\"ring\" markerUnits=\"userSpaceOnUse\" "
         "overflow=\"visible\"><circle class=\"ring\" cx=\".5\" cy=\".5\" r=\".45\"/></marker>\n";
}

// Letters below and figures at the left, as seen from one side: a marker on the board's corner.
std::string coordinates(std::string_view id, bool from_white) {
  const std::string files = from_white ? "abcdefgh" : "hgfedcba";
  const std::string ranks = from_white ? "87654321" : "12345678";
  return "<marker id=\"" + std::string(id) +
         "\" markerUnits=\"userSpaceOnUse\" overflow=\"visible\"><text class=\"co\" x=\".5 1.5 2.5 "
         "3.5 4.5 5.5 6.5 7.5\" y=\"8.45\">" +
         files +
         "</text><text class=\"co\" x=\"-.32 -.32 -.32 -.32 -.32 -.32 -.32 -.32\" y=\".63 1.63 "
         "2.63 "
         "3.63 4.63 5.63 6.63 7.63\">" +
         ranks + "</text></marker>\n";
}

}  // namespace

std::string diagram_definitions() {
  std::string svg = "<svg class=\"defs\" width=\"0\" height=\"0\" aria-hidden=\"true\"><defs>\n";
  for (const auto type :
       {rules::pawn, rules::knight, rules::bishop, rules::rook, rules::queen, rules::king}) {
    svg += man(type, 'w') + man(type, 'b');
  }
  return svg + board() + coordinates("cw", true) + coordinates("cb", false) + "</defs></svg>\n";
}

}  // namespace kairos::report
