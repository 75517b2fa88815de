// Path data to polygons: curves to short lines, lines of a width to the areas that they cover.
//
// Places are in 256ths of a pixel; whole numbers all the way, so that every machine gives the same.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace kairos::report {

struct Point {
  std::int64_t x = 0, y = 0;
  friend bool operator==(const Point&, const Point&) = default;
};

struct Track {
  std::vector<Point> points;
  bool closed = false;  // the last point is joined to the first
};

// Where units come to lie: origin + unit * scale, the scale being the pixels of a square.
struct Placement {
  Point origin;
  std::int64_t scale = 1;
};

// What is no path data of that kind (scene.hpp) ends the tracks.
std::vector<Track> tracks_of(std::string_view outline, const Placement& placement);

// Polygons that all run the same way round, so that together they cover what the line covers; with
// round joins.
using Polygon = std::vector<Point>;
std::vector<Polygon> line_area(const std::vector<Track>& tracks, std::int64_t width,
                               bool round_ends);

// The whole root of a number that is not negative, rounded down.
std::int64_t whole_root(std::int64_t square);

}  // namespace kairos::report
