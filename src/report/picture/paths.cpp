#include "paths.hpp"

#include <array>
#include <cstddef>
#include <utility>

#include "kairos/base/text.hpp"

namespace kairos::report {

namespace {

constexpr std::int64_t curve_steps = 16;  // at 4320 pixels half a pixel off at most

class Reader {
 public:
  Reader(std::string_view text, const Placement& placement) : rest_(text), place_(placement) {}

  std::vector<Track> read() {
    while (!rest_.empty()) {
      const char command = rest_.front();
      rest_.remove_prefix(1);
      if (!follow(command)) break;
    }
    return std::move(tracks_);
  }

 private:
  // A number and the comma or blank behind it.
  std::int64_t number() {
    std::size_t size = !rest_.empty() && rest_.front() == '-' ? 1 : 0;
    while (size < rest_.size() && rest_[size] >= '0' && rest_[size] <= '9') ++size;
    const std::int64_t value = base::to_integer(rest_.substr(0, size)).value_or(0);
    rest_.remove_prefix(size);
    if (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
    return value;
  }
  std::int64_t across() { return place_.origin.x + number() * place_.scale; }
  std::int64_t down() { return place_.origin.y + number() * place_.scale; }
  Point point() {
    const std::int64_t x = across();
    return {x, down()};
  }
  std::vector<Point>& points() { return tracks_.back().points; }

  // Bezier curves of degree two and three, in Bernstein's form.
  void quadratic() {
    const Point a = points().back(), b = point(), c = point();
    constexpr std::int64_t n = curve_steps, whole = n * n;
    const auto at = [](std::int64_t p, std::int64_t q, std::int64_t r, std::int64_t i) {
      return ((n - i) * (n - i) * p + 2 * i * (n - i) * q + i * i * r) / whole;
    };
    for (std::int64_t i = 1; i <= n; ++i) {
      points().push_back({at(a.x, b.x, c.x, i), at(a.y, b.y, c.y, i)});
    }
  }
  void cubic() {
    const Point a = points().back(), b = point(), c = point(), d = point();
    constexpr std::int64_t n = curve_steps, whole = n * n * n;
    const auto at = [](const std::array<std::int64_t, 4>& p, std::int64_t i) {
      const std::int64_t j = n - i;
      return (j * j * j * p[0] + 3 * i * j * j * p[1] + 3 * i * i * j * p[2] + i * i * i * p[3]) /
             whole;
    };
    for (std::int64_t i = 1; i <= n; ++i) {
      points().push_back({at({a.x, b.x, c.x, d.x}, i), at({a.y, b.y, c.y, d.y}, i)});
    }
  }

  bool follow(char command) {
    if (command != 'M' && tracks_.empty()) return false;
    switch (command) {
      case 'M':
        tracks_.push_back({{point()}, false});
        return true;
      case 'L':
        points().push_back(point());
        return true;
      case 'H':
        points().push_back({across(), points().back().y});
        return true;
      case 'V':
        points().push_back({points().back().x, down()});
        return true;
      case 'Q':
        quadratic();
        return true;
      case 'C':
        cubic();
        return true;
      case 'Z':
        tracks_.back().closed = true;
        return true;
      default:
        return false;
    }
  }

  std::string_view rest_;
  Placement place_;
  std::vector<Track> tracks_;
};

// The band of half-width `reach` around a piece of line; nothing for a piece without length.
void add_band(std::vector<Polygon>& area, Point from, Point to, std::int64_t reach) {
  const std::int64_t dx = to.x - from.x, dy = to.y - from.y;
  const std::int64_t length = whole_root(dx * dx + dy * dy);
  if (length == 0) return;
  const Point side{-dy * reach / length, dx * reach / length};
  area.push_back({{from.x - side.x, from.y - side.y},
                  {to.x - side.x, to.y - side.y},
                  {to.x + side.x, to.y + side.y},
                  {from.x + side.x, from.y + side.y}});
}

// A disc, as a polygon of 32 corners.
void add_disc(std::vector<Polygon>& area, Point middle, std::int64_t reach) {
  // cos(k * 11.25 degrees) in 16384ths.
  constexpr std::array<std::int64_t, 9> cosine = {16384, 16069, 15137, 13623, 11585,
                                                  9102,  6270,  3196,  0};
  constexpr std::size_t quarter = 8;
  Polygon disc;
  disc.reserve(4 * quarter);
  for (std::size_t turn = 0; turn < 4; ++turn) {
    for (std::size_t k = 0; k < quarter; ++k) {
      const std::int64_t c = cosine[k] * reach / 16384, s = cosine[quarter - k] * reach / 16384;
      constexpr std::array<std::array<int, 2>, 4> signs = {{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}}};
      const bool swapped = turn % 2 == 1;
      disc.push_back({middle.x + signs[turn][0] * (swapped ? s : c),
                      middle.y + signs[turn][1] * (swapped ? c : s)});
    }
  }
  area.push_back(std::move(disc));
}

// Whether the line bends little enough at `at` that bands overlap but for less than an eye sees: a
// step of a curve.
bool is_smooth(Point before, Point at, Point after) {
  const std::int64_t ax = at.x - before.x, ay = at.y - before.y;
  const std::int64_t bx = after.x - at.x, by = after.y - at.y;
  const std::int64_t along = ax * bx + ay * by, across = ax * by - ay * bx;
  return along > 0 && 8 * (across < 0 ? -across : across) < along;
}

// What is missing between two bands that meet smoothly: the wedge on the outer side, on both.
void add_wedge(std::vector<Polygon>& area, Point before, Point at, Point after,
               std::int64_t reach) {
  std::vector<Polygon> bands;
  add_band(bands, before, at, reach);
  add_band(bands, at, after, reach);
  if (bands.size() < 2) return;
  const std::int64_t turn =
      (at.x - before.x) * (after.y - at.y) - (at.y - before.y) * (after.x - at.x);
  if (turn > 0) {
    area.push_back({at, bands[0][1], bands[1][0]});
  } else {
    area.push_back({at, bands[1][3], bands[0][2]});
  }
}

void add_line(std::vector<Polygon>& area, std::vector<Point> points, bool closed,
              std::int64_t reach, bool round_ends) {
  std::vector<Point> distinct;
  for (const Point& point : points) {
    if (distinct.empty() || !(distinct.back() == point)) distinct.push_back(point);
  }
  if (closed && distinct.size() > 1 && distinct.back() == distinct.front()) distinct.pop_back();
  const std::size_t count = distinct.size();
  for (std::size_t i = 0; i < count; ++i) {
    const bool first = i == 0, last = i + 1 == count;
    const Point before = distinct[first ? count - 1 : i - 1], at = distinct[i],
                after = distinct[last ? 0 : i + 1];
    if (closed || !last) add_band(area, at, after, reach);
    if (!closed && (first || last)) {
      if (round_ends) add_disc(area, at, reach);
    } else if (is_smooth(before, at, after)) {
      add_wedge(area, before, at, after, reach);
    } else {
      add_disc(area, at, reach);
    }
  }
}

}  // namespace

// Newton's method, from above.
std::int64_t whole_root(std::int64_t square) {
  if (square < 2) return square;
  std::int64_t root = square / 2 + 1, next = (root + square / root) / 2;
  while (next < root) {
    root = next;
    next = (root + square / root) / 2;
  }
  return root;
}

std::vector<Track> tracks_of(std::string_view outline, const Placement& placement) {
  return Reader(outline, placement).read();
}

std::vector<Polygon> line_area(const std::vector<Track>& tracks, std::int64_t width,
                               bool round_ends) {
  std::vector<Polygon> area;
  for (const Track& track : tracks) {
    add_line(area, track.points, track.closed, width / 2, round_ends);
  }
  return area;
}

}  // namespace kairos::report
