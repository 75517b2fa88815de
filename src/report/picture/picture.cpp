#include "kairos/report/picture.hpp"

#include "outlines.hpp"
#include "png.hpp"

namespace kairos::report {

// A square has a whole number of pixels and begins at one, so that all are alike and their edges
// sharp; what is left of the picture goes to its margins.
base::Result<std::string> picture_png(const Picture& picture) {
  const Scene scene = scene_of(picture);
  Canvas canvas(picture.pixels, scene.ground);
  const int square = picture.pixels * square_units / scene.size;
  const int spare = picture.pixels - square * scene.size / square_units;
  const auto corner = [&](int margin) -> std::int64_t {
    constexpr std::int64_t places = 256;  // in a pixel
    return places * (spare / 2 + margin * square / square_units);
  };
  const Placement board{{corner(-scene.left), corner(-scene.top)}, square};
  for (const Shape& shape : scene.shapes) canvas.draw(shape, board);
  return to_png(canvas);
}

}  // namespace kairos::report
