// Areas and lines on pixels, against a slow and obvious twin that asks of one place after the other
// whether it lies inside.
#include "canvas.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace kairos;
using namespace kairos::report;

namespace {

constexpr Color black{0, 0, 0};
constexpr Color white{255, 255, 255};

// How often the polygons run around the place, by the crossings of the ray to its left; in halves
// of a 256th of a pixel, so that no corner lies at the height of a place.
int winding_at(const std::vector<Polygon>& area, std::int64_t x, std::int64_t y) {
  int winding = 0;
  for (const Polygon& polygon : area) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Point a{2 * polygon[i].x, 2 * polygon[i].y};
      const Point& next = polygon[(i + 1) % polygon.size()];
      const Point b{2 * next.x, 2 * next.y};
      if ((a.y <= y) == (b.y <= y)) continue;
      const double crossing = static_cast<double>(a.x) + static_cast<double>(b.x - a.x) *
                                                             static_cast<double>(y - a.y) /
                                                             static_cast<double>(b.y - a.y);
      if (crossing < static_cast<double>(x)) winding += b.y > a.y ? 1 : -1;
    }
  }
  return winding;
}

// Black on white, 0 to 255: by 16 x 16 places in the pixel.
double shade_at(const std::vector<Polygon>& area, int x, int y) {
  int inside = 0;
  for (int i = 0; i < 16; ++i) {
    for (int j = 0; j < 16; ++j) {
      inside += winding_at(area, 512 * x + 32 * i + 17, 512 * y + 32 * j + 17) != 0 ? 1 : 0;
    }
  }
  return 255 - 255 * inside / 256.0;
}

}  // namespace

TEST_CASE("a pixel is painted by the share of it that lies inside") {
  const auto seed = std::random_device{}();
  CAPTURE(seed);
  std::mt19937 random(seed);
  constexpr int size = 10;
  std::uniform_int_distribution<std::int64_t> place(-2 * 256, (size + 2) * 256);
  for (int round = 0; round < 60; ++round) {
    std::vector<Polygon> area(1 + static_cast<std::size_t>(round % 3));
    for (Polygon& polygon : area) {
      for (int corner = 0; corner < 3 + round % 4; ++corner) {
        polygon.push_back({place(random), place(random)});
      }
    }
    Canvas canvas(size, white);
    canvas.paint(area, black);
    double worst = 0, sum = 0;
    for (int y = 0; y < size; ++y) {
      for (int x = 0; x < size; ++x) {
        const double off = std::abs(canvas.at(x, y).red - shade_at(area, x, y));
        worst = std::max(worst, off);
        sum += off;
      }
    }
    // Eight lines against sixteen: where edges lie flat a sixteenth of a pixel for each of them.
    CHECK(worst < 64);
    CHECK(sum / (size * size) < 4);
  }
}

TEST_CASE("edges on pixels are sharp, and halves are halves") {
  Canvas canvas(4, white);
  canvas.paint({{{256, 256}, {3 * 256, 256}, {3 * 256, 2 * 256}, {256, 2 * 256}}}, black);
  for (int y = 0; y < 4; ++y) {
    for (int x = 0; x < 4; ++x) {
      CHECK(int{canvas.at(x, y).red} == (y == 1 && (x == 1 || x == 2) ? 0 : 255));
    }
  }
  Canvas half(2, white);
  half.paint({{{128, 0}, {256, 0}, {256, 256}, {128, 256}}}, black);
  CHECK(std::abs(half.at(0, 0).red - 128) <= 1);
  half.paint({{{256, 128}, {512, 128}, {512, 256}, {256, 256}}}, black);
  CHECK(std::abs(half.at(1, 0).red - 128) <= 1);
}

TEST_CASE("on a transparent ground the colour is whole and the alpha is the share") {
  Canvas canvas(1, std::nullopt);
  CHECK(canvas.at(0, 0) == Pixel{});
  canvas.paint({{{0, 0}, {64, 0}, {64, 256}, {0, 256}}}, {200, 100, 50});
  CHECK(canvas.at(0, 0) == Pixel{200, 100, 50, 64});
  canvas.paint({{{0, 0}, {256, 0}, {256, 256}, {0, 256}}}, black);
  CHECK(canvas.at(0, 0) == Pixel{0, 0, 0, 255});
}

TEST_CASE("a line covers what is nearer than half its width, round at joins and ends") {
  constexpr int size = 40;
  const Placement placement{{0, 0}, 1};  // a unit is a 256th of a pixel
  for (const bool round : {false, true}) {
    Canvas canvas(size, white);
    const auto tracks = tracks_of("M2560 2560L7680 2560L7680 7680L3000 7000", placement);
    canvas.paint(line_area(tracks, 2048, round), black);  // 8 pixels wide
    const Point corners[] = {{2560, 2560}, {7680, 2560}, {7680, 7680}, {3000, 7000}};
    for (int y = 0; y < size; ++y) {
      for (int x = 0; x < size; ++x) {
        const double px = 256 * x + 128, py = 256 * y + 128;
        double nearest = 1e9;
        bool beyond_end = false;
        for (int i = 0; i < 3; ++i) {
          const double ax = static_cast<double>(corners[i].x),
                       ay = static_cast<double>(corners[i].y);
          const double dx = static_cast<double>(corners[i + 1].x) - ax;
          const double dy = static_cast<double>(corners[i + 1].y) - ay;
          const double along = ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy);
          const double t = std::clamp(along, 0.0, 1.0);
          const double distance = std::hypot(px - ax - t * dx, py - ay - t * dy);
          if (distance >= nearest) continue;
          nearest = distance;
          beyond_end = (i == 0 && along < 0.1) || (i == 2 && along > 0.9);
        }
        if (beyond_end && !round) continue;
        CAPTURE(x, y, round, nearest);
        if (nearest < 1024 - 256) CHECK(int{canvas.at(x, y).red} == 0);
        if (nearest > 1024 + 256) CHECK(int{canvas.at(x, y).red} == 255);
      }
    }
    // Beyond the first end, by three pixels: there only if the end is round.
    CHECK(int{canvas.at(7, 10).red} == (round ? 0 : 255));
  }
}

TEST_CASE("curves pass through their ends and keep near the true curve") {
  const auto tracks = tracks_of("M0 0Q100 0 100 100C100 200 0 200 0 100Z", {{0, 0}, 256});
  REQUIRE(tracks.size() == 1);
  CHECK(tracks[0].closed);
  CHECK(tracks[0].points.front() == Point{0, 0});
  CHECK(tracks[0].points.back() == Point{0, 25600});
  CHECK(tracks[0].points[16] == Point{25600, 25600});
  CHECK(tracks[0].points[8] == Point{19200, 6400});    // a quarter, half, a quarter
  CHECK(tracks[0].points[24] == Point{12800, 44800});  // an eighth, three, three, one
}

TEST_CASE("what is no path ends it, and nothing else happens") {
  const Placement placement{{0, 0}, 1};
  CHECK(tracks_of("", placement).empty());
  CHECK(tracks_of("L5 5", placement).empty());
  CHECK(tracks_of("x", placement).empty());
  CHECK(tracks_of("M1 2 x L3 4", placement).size() == 1);
  for (const std::int64_t n : {0, 1, 2, 3, 4, 15, 16, 17, 999'999, 1'000'000}) {
    const std::int64_t root = whole_root(n);
    CHECK(root * root <= n);
    CHECK((root + 1) * (root + 1) > n);
  }
}
