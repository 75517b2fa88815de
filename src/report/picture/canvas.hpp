// Pixels, and areas painted on them with smooth edges.
//
// An edge covers a pixel by an exact share along each of eight rows in it. Whole numbers only, so
// that every machine paints the same.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "paths.hpp"
#include "scene.hpp"

namespace kairos::report {

struct Pixel {
  std::uint8_t red = 0, green = 0, blue = 0, alpha = 0;
  friend bool operator==(const Pixel&, const Pixel&) = default;
};

class Canvas {
 public:
  // `size` pixels in square, of the ground's colour or transparent.
  Canvas(int size, std::optional<Color> ground);

  // All that lies inside by the nonzero rule (SVG 1.1, 11.3); what is outside the canvas is cut.
  void paint(const std::vector<Polygon>& area, Color color);
  // A shape's filling, then its line.
  void draw(const Shape& shape, const Placement& board);

  [[nodiscard]] int size() const { return size_; }
  [[nodiscard]] const Pixel& at(int x, int y) const { return pixels_[index(x, y)]; }

 private:
  [[nodiscard]] std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(size_) +
           static_cast<std::size_t>(x);
  }

  int size_;
  std::vector<Pixel> pixels_;
};

}  // namespace kairos::report
