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
    {'b', "M32 3L36 8L35 11L46 26L39 40L46 48H50V57H14V48H18L25 40L18 26L29 11L28 8Z",
     "M18 48H46M25 40H39M30 29L37 18"},
    {'r', "M14 10H23V17H28V10H36V17H41V10H50V25L44 30V43L49 48V57H15V48L20 43V30L14 25Z",
     "M15 48H49M20 30H44"},
    {'q', "M6 16L19 32L20 9L28 29L32 6L36 29L44 9L45 32L58 16L50 46V57H14V46Z", "M14 47H50"},
    {'k', "M28 2H36V7H42V15H36V20L40 25L56 22L49 46V57H15V46L8 22L24 25L28 20V15H22V7H28Z",
     "M15 47H49M32 27V39M26 33H38"},
}};

std::string man(const Drawing& drawing) {
  const std::string shape(drawing.shape);
  return std::string("<g id=\"m") + drawing.letter +
         "\"><g transform=\"scale(.015625)\"><path class=\"rim\" d=\"" + shape +
         "\"/><path class=\"man\" d=\"" + shape + "\"/><path class=\"det\" d=\"" +
         std::string(drawing.details) + "\"/></g></g>\n";
}

// Paper, hatched squares (the upper left corner is light from either side), frame.
std::string board() {
  std::string dark;
  for (int y = 0; y < 8; ++y) {
    for (int x = (y + 1) % 2; x < 8; x += 2) {
      dark += "M" + std::to_string(x) + " " + std::to_string(y) + "h1v1h-1z";
    }
  }
  return "<pattern id=\"ha\" width=\".125\" height=\".125\" patternUnits=\"userSpaceOnUse\" "
         "patternTransform=\"rotate(45)\"><path class=\"ha\" d=\"M0 0V.125\"/></pattern>\n"
         "<g id=\"bd\"><path class=\"paper\" d=\"M0 0h8v8h-8z\"/><path fill=\"url(#ha)\" d=\"" +
         dark +
         "\"/><path class=\"frame\" d=\"M-.03 -.03h8.06v8.06h-8.06z\"/></g>\n"
         "<path id=\"fr\" class=\"came\" d=\"M.06 .06h.88v.88h-.88z\"/>\n"
         "<marker id=\"tip\" viewBox=\"0 0 10 10\" refX=\"7\" refY=\"5\" markerWidth=\"4\" "
         "markerHeight=\"4\" orient=\"auto\"><path class=\"tip\" d=\"M0 0L10 5L0 "
         "10z\"/></marker>\n";
}

// Letters below and figures at the left, as seen from one side.
std::string coordinates(std::string_view id, bool from_white) {
  std::string svg = "<g id=\"" + std::string(id) + "\" class=\"co\">";
  for (int i = 0; i < 8; ++i) {
    const char file = static_cast<char>('a' + (from_white ? i : 7 - i));
    const char rank = static_cast<char>('1' + (from_white ? 7 - i : i));
    svg += "<text x=\"" + std::to_string(i) + ".5\" y=\"8.46\">" + file +
           "</text><text x=\"-.32\" y=\"" + std::to_string(i) + ".63\">" + rank + "</text>";
  }
  return svg + "</g>\n";
}

}  // namespace

std::string diagram_definitions() {
  std::string svg = "<svg class=\"defs\" width=\"0\" height=\"0\" aria-hidden=\"true\"><defs>\n";
  for (const Drawing& drawing : drawings) svg += man(drawing);
  return svg + board() + coordinates("cw", true) + coordinates("cb", false) + "</defs></svg>\n";
}

}  // namespace kairos::report
