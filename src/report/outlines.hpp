// The outlines of the men: the one place where they are drawn, for pages and pictures alike.
//
// SVG path data, absolute commands M L H V Q Z only, each with its letter, whole numbers, on a
// square of 256 by 256 units (`square_units`).
#pragma once

#include <string_view>

#include "kairos/rules/piece.hpp"

namespace kairos::report {

inline constexpr int square_units = 256;

struct ManOutline {
  std::string_view shape;    // one closed outline
  std::string_view details;  // lines upon it, in the contrary colour on black men
};

// Widths in units. A man is drawn three times: a broad paper-coloured rim, which makes it stand
// clear of the square, the shape with its line, the details.
inline constexpr int rim_width = 34, line_width = 13, detail_width = 12;

ManOutline outline_of(rules::PieceType type);

}  // namespace kairos::report
