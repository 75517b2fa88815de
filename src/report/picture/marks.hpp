// Marks upon the board and beside it, as shapes of a scene: rings, arrows, the last move, letters
// and figures.
#pragma once

#include <string>
#include <string_view>

#include "scene.hpp"

namespace kairos::report {

inline constexpr Color paper{0xFF, 0xFD, 0xF7};
inline constexpr Color ink{0x1D, 0x1B, 0x1A};
inline constexpr Color soft{0x5F, 0x5A, 0x54};   // ink of lesser weight
inline constexpr Color hatch{0xA5, 0x9C, 0x8D};  // of dark squares, in print
inline constexpr Color tone{0xC3, 0xB9, 0xA8};   // of dark squares, plain
inline constexpr Color mark{0x8C, 0x2F, 0x4E};

// Where a square's upper left corner lies, in units; `below` is the side that sits below.
struct Spot {
  int x, y;
};
Spot spot_of(rules::Square square, rules::Color below);

// A line with round ends and, where `rim` is not 0, paper on both sides of it, `rim` wide together.
struct MarkLine {
  Color color;
  int width;
  int rim;
};
void add_marked(Scene& scene, const std::string& outline, int x, int y, const MarkLine& line);

void add_ring(Scene& scene, Spot spot);
void add_arrow(Scene& scene, const Arrow& arrow, rules::Color below);
// A hollow dot on the square left, a broken frame on the one reached: told apart by shape.
void add_last_move(Scene& scene, rules::Move move, rules::Color below);

// The letter of a file, 0 the a, and the figure of a rank, 0 the 1: lines around the middle of the
// foot of the sign.
std::string_view letter_outline(int file);
std::string_view figure_outline(int rank);

}  // namespace kairos::report
