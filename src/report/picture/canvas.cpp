// Each pixel row is looked at along eight lines. Where an edge crosses a line the winding number
// changes; between two such places it is zero (outside) or not (inside). A stretch inside is noted
// as the change of coverage at its two ends, so that a wide one costs no more than a narrow one,
// and summed up when the row is painted.
#include "canvas.hpp"

#include <algorithm>

namespace kairos::report {

namespace {

constexpr std::int64_t pixel = 256;  // places in one
constexpr std::int64_t lines = 8;    // looked along in one
constexpr std::int64_t between = pixel / lines;
constexpr std::int64_t full = lines * pixel;  // coverage of a pixel that lies inside

struct Crossing {
  std::int64_t x;
  int turn;  // +1 where the edge runs down, -1 where it runs up
};

// The crossings of every line, line by line.
class Crossings {
 public:
  Crossings(const std::vector<Polygon>& area, int size)
      : last_(size * lines), starts_(static_cast<std::size_t>(last_) + 1) {
    each(area, [this](std::int64_t line, const Crossing&) {
      ++starts_[static_cast<std::size_t>(line) + 1];
    });
    for (std::size_t i = 1; i < starts_.size(); ++i) starts_[i] += starts_[i - 1];
    all_.resize(starts_.back());
    std::vector<std::size_t> next(starts_.begin(), starts_.end() - 1);
    each(area, [this, &next](std::int64_t line, const Crossing& crossing) {
      all_[next[static_cast<std::size_t>(line)]++] = crossing;
    });
  }

  // In the order of x.
  std::pair<const Crossing*, const Crossing*> on(std::int64_t line) {
    Crossing* const begin = all_.data() + starts_[static_cast<std::size_t>(line)];
    Crossing* const end = all_.data() + starts_[static_cast<std::size_t>(line) + 1];
    std::sort(begin, end, [](const Crossing& a, const Crossing& b) { return a.x < b.x; });
    return {begin, end};
  }

 private:
  template <typename Take>
  void each(const std::vector<Polygon>& area, const Take& take) const {
    for (const Polygon& polygon : area) {
      for (std::size_t i = 0; i < polygon.size(); ++i) {
        edge(polygon[i], polygon[i + 1 == polygon.size() ? 0 : i + 1], take);
      }
    }
  }

  // Lines lie in the middle of their stretch of a pixel; one through a corner belongs to the edge
  // that begins there.
  template <typename Take>
  void edge(Point from, Point to, const Take& take) const {
    const int turn = from.y < to.y ? 1 : -1;
    if (turn < 0) std::swap(from, to);
    const auto at_or_below = [](std::int64_t y) {
      const std::int64_t shifted = y - between / 2 + between - 1;
      return shifted < 0 ? 0 : shifted / between;
    };
    const std::int64_t end = std::min(at_or_below(to.y), last_);
    for (std::int64_t line = at_or_below(from.y); line < end; ++line) {
      const std::int64_t y = line * between + between / 2;
      take(line, {from.x + (to.x - from.x) * (y - from.y) / (to.y - from.y), turn});
    }
  }

  std::int64_t last_;
  std::vector<std::size_t> starts_;
  std::vector<Crossing> all_;
};

// Changes of coverage along one row of pixels.
class Row {
 public:
  explicit Row(int size) : width_(size), changes_(static_cast<std::size_t>(size) + 2) {}

  void add(std::int64_t from, std::int64_t to) {
    change(from, 1);
    change(to, -1);
  }

  // Hands on each pixel that is covered, from 1 to `full`, and forgets all.
  template <typename Take>
  void take(const Take& take_pixel) {
    std::int64_t coverage = 0;
    for (std::size_t x = first_; x < std::min(beyond_, static_cast<std::size_t>(width_)); ++x) {
      coverage += changes_[x];
      if (coverage > 0) take_pixel(static_cast<int>(x), coverage);
    }
    if (first_ < beyond_) {
      std::fill(changes_.begin() + static_cast<std::ptrdiff_t>(first_),
                changes_.begin() + static_cast<std::ptrdiff_t>(beyond_), 0);
    }
    first_ = changes_.size();
    beyond_ = 0;
  }

 private:
  void change(std::int64_t place, int sign) {
    place = std::clamp<std::int64_t>(place, 0, width_ * pixel);
    const auto x = static_cast<std::size_t>(place / pixel);
    const auto behind = static_cast<std::int64_t>(place % pixel);
    changes_[x] += sign * (pixel - behind);
    changes_[x + 1] += sign * behind;
    first_ = std::min(first_, x);
    beyond_ = std::max(beyond_, x + 2);
  }

  std::int64_t width_;
  std::vector<std::int64_t> changes_;
  std::size_t first_ = 0, beyond_ = 0;
};

void add_line(Row& row, const std::pair<const Crossing*, const Crossing*>& crossings) {
  int winding = 0;
  std::int64_t begin = 0;
  for (const Crossing* c = crossings.first; c != crossings.second; ++c) {
    const int before = winding;
    winding += c->turn;
    if (before == 0) begin = c->x;
    if (winding == 0 && begin < c->x) row.add(begin, c->x);
  }
}

std::uint8_t mixed(std::int64_t below, std::int64_t above, std::int64_t share, std::int64_t whole) {
  return static_cast<std::uint8_t>((below * (whole - share) + above * share + whole / 2) / whole);
}

// The colour over the pixel, covering `share` of `whole` of it.
void lay_over(Pixel& below, Color color, std::int64_t share, std::int64_t whole) {
  std::int64_t part = share, all = whole;  // of what can be seen then
  if (below.alpha < 255) {
    // Of the pixel below the part shines through that is not covered and is not transparent itself.
    part = share * 255;
    all = part + (whole - share) * below.alpha;
    if (all == 0) return;
    below.alpha = mixed(below.alpha, 255, share, whole);
  }
  below.red = mixed(below.red, color.red, part, all);
  below.green = mixed(below.green, color.green, part, all);
  below.blue = mixed(below.blue, color.blue, part, all);
}

}  // namespace

Canvas::Canvas(int size, std::optional<Color> ground)
    : size_(size),
      pixels_(static_cast<std::size_t>(size) * static_cast<std::size_t>(size),
              ground ? Pixel{ground->red, ground->green, ground->blue, 255} : Pixel{}) {}

void Canvas::paint(const std::vector<Polygon>& area, Color color) {
  std::int64_t top = size_ * pixel, bottom = 0;
  for (const Polygon& polygon : area) {
    for (const Point& point : polygon) {
      top = std::min(top, point.y);
      bottom = std::max(bottom, point.y);
    }
  }
  Crossings crossings(area, size_);
  Row row(size_);
  const auto first = static_cast<int>(std::max<std::int64_t>(top, 0) / pixel);
  const auto last = static_cast<int>(std::min<std::int64_t>(bottom / pixel + 1, size_));
  for (int y = first; y < last; ++y) {
    for (std::int64_t line = y * lines; line < (y + 1) * lines; ++line) {
      add_line(row, crossings.on(line));
    }
    row.take([&](int x, std::int64_t coverage) {
      lay_over(pixels_[index(x, y)], color, coverage, full);
    });
  }
}

void Canvas::draw(const Shape& shape, const Placement& board) {
  const Placement place{
      {board.origin.x + shape.x * board.scale, board.origin.y + shape.y * board.scale},
      board.scale};
  const std::vector<Track> tracks = tracks_of(shape.outline, place);
  if (shape.fill) {
    std::vector<Polygon> area;
    for (const Track& track : tracks) area.push_back(track.points);
    paint(area, *shape.fill);
  }
  if (shape.line) {
    paint(line_area(tracks, shape.width * board.scale, shape.round_ends), *shape.line);
  }
}

}  // namespace kairos::report
