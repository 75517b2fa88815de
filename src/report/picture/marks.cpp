#include "marks.hpp"

#include <algorithm>
#include <array>

#include "outlines.hpp"
#include "paths.hpp"

namespace kairos::report {

namespace {

constexpr int half = square_units / 2;

// Of an arrow, in units.
constexpr int shaft = 24, head_width = 92, head_length = 84;
constexpr int begins = 44;  // behind the middle of the square that it leaves
constexpr int ends = 12;    // before the middle of the one that it points to
constexpr int dash = 54, gap = 30;

// Places along an arrow and across it, as places of the picture.
class Along {
 public:
  Along(Spot from, Spot to)
      : x_(from.x + half), y_(from.y + half), dx_(to.x - from.x), dy_(to.y - from.y) {
    constexpr std::int64_t finer = 4096;
    length_ = whole_root((dx_ * dx_ + dy_ * dy_) * finer * finer);
    dx_ *= finer;
    dy_ *= finer;
    units_ = static_cast<int>(length_ / finer);
  }

  [[nodiscard]] int length() const { return units_; }
  [[nodiscard]] std::string place(int along, int across) const {
    return std::to_string(x_ + nearest(dx_ * along - dy_ * across)) + " " +
           std::to_string(y_ + nearest(dy_ * along + dx_ * across));
  }

 private:
  [[nodiscard]] std::int64_t nearest(std::int64_t value) const {
    return (2 * value + (value < 0 ? -length_ : length_)) / (2 * length_);
  }

  std::int64_t x_, y_, dx_, dy_, length_ = 1;
  int units_ = 0;
};

std::string head_outline(const Along& along, int tip) {
  const int back = tip - head_length;
  return "M" + along.place(back, head_width / 2) + "L" + along.place(tip, 0) + "L" +
         along.place(back, -head_width / 2) + "Z";
}

std::string shaft_outline(const Along& along, ArrowLine line, int end) {
  if (line == ArrowLine::whole) return "M" + along.place(begins, 0) + "L" + along.place(end, 0);
  const bool dots = line == ArrowLine::dotted;
  std::string outline;
  for (int at = begins; at < end; at += dots ? 2 * shaft : dash + gap) {
    const int until = dots ? at : std::min(at + dash, end);
    outline += "M" + along.place(at, 0) + "L" + along.place(until, 0);
  }
  return outline;
}

std::string circle(int middle, int radius) {
  // Four curves of degree three; 0.5523 of the radius to the control points.
  const int reach = radius * 5523 / 10000;
  const auto place = [middle](int x, int y) {
    return std::to_string(middle + x) + " " + std::to_string(middle + y);
  };
  const auto curve = [&place](std::array<int, 6> p) {
    return "C" + place(p[0], p[1]) + " " + place(p[2], p[3]) + " " + place(p[4], p[5]);
  };
  return "M" + place(radius, 0) + curve({radius, reach, reach, radius, 0, radius}) +
         curve({-reach, radius, -radius, reach, -radius, 0}) +
         curve({-radius, -reach, -reach, -radius, 0, -radius}) +
         curve({reach, -radius, radius, -reach, radius, 0}) + "Z";
}

}  // namespace

Spot spot_of(rules::Square square, rules::Color below) {
  const int file = rules::file_of(square), rank = rules::rank_of(square);
  if (below == rules::white) return {file * square_units, (7 - rank) * square_units};
  return {(7 - file) * square_units, rank * square_units};
}

void add_marked(Scene& scene, const std::string& outline, int x, int y, const MarkLine& line) {
  if (line.rim > 0) {
    scene.shapes.push_back({outline, x, y, {}, paper, line.width + line.rim, true});
  }
  scene.shapes.push_back({outline, x, y, {}, line.color, line.width, true});
}

void add_ring(Scene& scene, Spot spot) {
  add_marked(scene, circle(half, 117), spot.x, spot.y, {.color = mark, .width = 20, .rim = 12});
}

void add_arrow(Scene& scene, const Arrow& arrow, rules::Color below) {
  constexpr int rim = 14;
  const Along along(spot_of(arrow.from, below), spot_of(arrow.to, below));
  const int tip = along.length() - ends;
  // Dots and dashes end where they do not run into the head.
  const bool whole = arrow.line == ArrowLine::whole;
  const std::string shaft_line =
      shaft_outline(along, arrow.line, tip - head_length - (whole ? 0 : shaft));
  const std::string head = head_outline(along, tip);
  scene.shapes.push_back({shaft_line, 0, 0, {}, paper, shaft + rim, true});
  scene.shapes.push_back({head, 0, 0, {}, paper, rim, true});
  scene.shapes.push_back({shaft_line, 0, 0, {}, mark, shaft, true});
  scene.shapes.push_back({head, 0, 0, mark, {}, 0, false});
}

void add_last_move(Scene& scene, rules::Move move, rules::Color below) {
  const Spot from = spot_of(move.from(), below), to = spot_of(move.to(), below);
  scene.shapes.push_back({circle(half, 40), from.x, from.y, paper, ink, 16, false});
  const std::string frame =
      "M16 76V16H76M104 16H152M180 16H240V76M240 104V152M240 180V240H180M152 240H104M76 240H16V180"
      "M16 152V104";
  add_marked(scene, frame, to.x, to.y, {.color = ink, .width = 18, .rim = 12});
}

std::string_view letter_outline(int file) {
  constexpr std::array<std::string_view, 8> letters = {
      "M18 -44V0M18 -22Q18 -44 -2 -44Q-20 -44 -20 -22Q-20 0 -2 0Q18 0 18 -22",
      "M-18 -66V0M-18 -22Q-18 -44 2 -44Q20 -44 20 -22Q20 0 2 0Q-18 0 -18 -22",
      "M17 -35Q12 -44 0 -44Q-20 -44 -20 -22Q-20 0 0 0Q12 0 17 -9",
      "M18 -66V0M18 -22Q18 -44 -2 -44Q-20 -44 -20 -22Q-20 0 -2 0Q18 0 18 -22",
      "M-20 -23H19Q19 -44 0 -44Q-20 -44 -20 -22Q-20 0 1 0Q12 0 17 -8",
      "M16 -65Q-3 -69 -3 -50V0M-16 -42H14",
      "M18 -44V4Q18 20 0 20Q-12 20 -17 14M18 -22Q18 -44 -2 -44Q-20 -44 -20 -22Q-20 0 -2 0"
      "Q18 0 18 -22",
      "M-18 -66V0M-18 -22Q-18 -44 0 -44Q18 -44 18 -26V0"};
  return letters[static_cast<std::size_t>(file)];
}

std::string_view figure_outline(int rank) {
  constexpr std::array<std::string_view, 8> figures = {
      "M-14 -50L4 -64V0",
      "M-18 -48Q-18 -64 0 -64Q19 -64 19 -46Q19 -32 -18 0H20",
      "M-18 -64H17L-4 -40Q20 -40 20 -20Q20 0 0 0Q-14 0 -20 -10",
      "M10 0V-64L-22 -18H22",
      "M16 -64H-14L-16 -36Q-8 -42 0 -42Q20 -42 20 -21Q20 0 -2 0Q-14 0 -20 -8",
      "M14 -62Q-20 -56 -20 -20Q-20 0 0 0Q20 0 20 -20Q20 -40 0 -40Q-16 -40 -20 -20",
      "M-20 -64H20L-6 0",
      "M0 -35Q-18 -35 -18 -50Q-18 -64 0 -64Q18 -64 18 -50Q18 -35 0 -35Q-21 -35 -21 -18Q-21 0 0 0"
      "Q21 0 21 -18Q21 -35 0 -35"};
  return figures[static_cast<std::size_t>(rank)];
}

}  // namespace kairos::report
