// The men and the board, drawn for this project and licensed with it.
//
// Cut-paper shapes with straight edges only, on a square of 64 by 64: a slab below, and above it
// the sign of the man. Each is drawn twice, first as a broad paper-coloured rim so that it stands
// clear of the hatching, then itself. `d` paths are details, in the contrary colour on black men.
// Dark squares are hatched as in printed books, so nothing depends on colour.
#include <array>
#include <string>

#include "html_page.hpp"

namespace kairos::report {

namespace {

struct Drawing {
  char letter;
  std::string_view shape;    // closed outline
  std::string_view details;  // lines upon it
};

constexpr std::array<Drawing, 6> drawings{{
    {'p', "M28 13H36L42 19V27L37 32L45 48H49V57H15V48H19L27 32L22 27V19Z", "M19 48H45"},
    {'n', "M50 57V40L45 23L36 14L33 6L27 14L20 18L10 33L13 41L20 42L30 35L32 37L20 48H15V57Z",
     "M19 48H50M25 23L29 25M38 22L42 38"},
    {'b', "M32 6L36 10L35 13L46 27L39 40L46 48H50V57H14V48H18L25 40L18 27L29 13L28 10Z",
     "M18 48H46M25 40H39M30 30L37 19"},
    {'r', "M14 10H23V17H28V10H36V17H41V10H50V25L44 30V43L49 48V57H15V48L20 43V30L14 25Z",
     "M15 48H49M20 30H44"},
    {'q', "M6 16L19 32L20 9L28 29L32 6L36 29L44 9L45 32L58 16L50 46V57H14V46Z", "M14 47H50"},
    {'k', "M28 6H36V10H42V17H36V21L40 26L56 23L49 46V57H15V46L8 23L24 26L28 21V17H22V10H28Z",
     "M15 47H49M32 27V39M26 33H38"},
}};

// A man is a marker: a path with the marker's class draws it at every vertex, so one element shows
// all men of a kind and the browser copies nothing (`use` would build a tree for each man).
std::string man(const Drawing& drawing, char color) {
  const std::string shape(drawing.shape);
  return std::string("<marker id=\"") + color + drawing.letter +
         "\" viewBox=\"0 0 64 64\" markerWidth=\"1\" markerHeight=\"1\" "
         "markerUnits=\"userSpaceOnUse\" overflow=\"visible\"><path class=\"rim\" d=\"" +
         shape + "\"/><path class=\"man " + color + "\" d=\"" + shape + "\"/><path class=\"det " +
         color + "\" d=\"" + std::string(drawing.details) + "\"/></marker>\n";
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
  for (const Drawing& drawing : drawings) svg += man(drawing, 'w') + man(drawing, 'b');
  return svg + board() + coordinates("cw", true) + coordinates("cb", false) + "</defs></svg>\n";
}

}  // namespace kairos::report
