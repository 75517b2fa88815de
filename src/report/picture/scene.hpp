// What a picture consists of: shapes, one over the other, before they become SVG or pixels.
//
// Places are in units of a 256th of a square (outlines.hpp), x to the right, y downward, from the
// upper left corner of the board.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "kairos/report/picture.hpp"

namespace kairos::report {

struct Color {
  std::uint8_t red, green, blue;
};

struct Shape {
  std::string outline;  // SVG path data as in outlines.hpp, and C
  int x = 0, y = 0;     // where its origin lies
  std::optional<Color> fill;
  std::optional<Color> line;
  int width = 0;            // of the line; its joins are round
  bool round_ends = false;  // of the line
};

struct Scene {
  // The board and what surrounds it: a square.
  int left = 0, top = 0, size = 0;
  std::optional<Color> ground;  // none: transparent
  std::vector<Shape> shapes;
};

Scene scene_of(const Picture& picture);

}  // namespace kairos::report
