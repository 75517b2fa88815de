// A picture of one position, as SVG or as PNG: men, arrows, rings, coordinates.
//
// Both show the same and need no font. A picture is square, `pixels` wide (of an SVG the size it
// asks for). Of squares, colours and moves nothing is told by colour alone. Pure: the same picture
// gives the same bytes (of a PNG with the same zlib; its pixels are the same with any).
// Standards: SVG 1.1; PNG, ISO/IEC 15948.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::report {

enum class ArrowLine : std::uint8_t { whole, broken, dotted };

// Between two squares that differ.
struct Arrow {
  rules::Square from = rules::no_square;
  rules::Square to = rules::no_square;
  ArrowLine line = ArrowLine::whole;
};

// Dark squares hatched, as in print, or of one tone, which bears strong compression of a video.
enum class DarkSquares : std::uint8_t { hatched, plain };

inline constexpr int least_pixels = 64, most_pixels = 4'320;

struct Picture {
  rules::Position position = rules::Position::start();
  rules::Color below = rules::white;   // the side that sits below
  rules::Move last{};                  // led to the position: a dot and a broken frame
  std::vector<Arrow> arrows{};         // drawn over the men, in this order
  std::vector<rules::Square> rings{};  // drawn below the men
  int pixels = 720;                    // least_pixels .. most_pixels
  bool coordinates = true;             // letters below, figures at the left
  bool transparent = false;            // nothing behind the coordinates, around the board
  DarkSquares dark = DarkSquares::hatched;
};

std::string picture_svg(const Picture& picture);
// A fault only where there is no memory to pack it.
base::Result<std::string> picture_png(const Picture& picture);

}  // namespace kairos::report
