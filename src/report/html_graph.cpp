// Places in the graph are whole units of its own grid, 640 wide, so the same study gives the same
// bytes: expectations are rounded to the unit before anything is printed. The signs of the turning
// points stand in rows above the frame (below zero), each joined to its place on the curve.
#include "html_graph.hpp"

#include <algorithm>
#include <cmath>

#include "kairos/report/words.hpp"

#include "html_page.hpp"
#include "labels.hpp"

namespace kairos::report {

namespace {

// The frame of the curve in the grid; the clocks stand under it.
constexpr int left = 62, right = 630, top = 12, height = 160;
constexpr int clock_top = top + height + 34, clock_height = 44;
// Of the signs: a row's height, and how far apart two must stand in it not to touch.
constexpr int row_height = 26, sign_gap = 24;

// The start position stands at the left edge, the last one at the right.
int x_of(std::size_t ply, std::size_t plies) {
  const auto span = static_cast<std::size_t>(right - left);
  return left + static_cast<int>(plies == 0 ? 0 : span * ply / plies);
}

// A sure win of White is the top, of Black the bottom.
int y_of(double white_expectation) {
  return top + static_cast<int>(std::lround((1.0 - white_expectation) * height));
}

std::string number(int value) {
  return std::to_string(value);
}

std::string text_at(int x, int y, std::string_view anchor, std::string_view words) {
  return "<text x=\"" + number(x) + "\" y=\"" + number(y) + "\" text-anchor=\"" +
         std::string(anchor) + "\">" + std::string(words) + "</text>";
}

// The curve's part on one side of the middle, as an area.
std::string area(const std::vector<double>& values, bool above) {
  std::string d = "M" + number(left) + " " + number(y_of(0.5));
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double kept = above ? std::max(values[i], 0.5) : std::min(values[i], 0.5);
    d += "L" + number(x_of(i, values.size() - 1)) + " " + number(y_of(kept));
  }
  return "<path class=\"" + std::string(above ? "above" : "below") + "\" d=\"" + d + "L" +
         number(right) + " " + number(y_of(0.5)) + "z\"/>";
}

std::string curve(const std::vector<double>& values) {
  std::string d;
  for (std::size_t i = 0; i < values.size(); ++i) {
    d += (i == 0 ? "M" : "L") + number(x_of(i, values.size() - 1)) + " " + number(y_of(values[i]));
  }
  return "<path class=\"curve\" d=\"" + d + "\"/>";
}

// Kinds differ in shape, so that they can be told apart without colour.
std::string_view shape_of(study::Kind kind) {
  switch (kind) {
    case study::Kind::swing:
      return "M-7 -6H7L0 8z";
    case study::Kind::only_move:
      return "M-6 -6H6V6H-6z";
    case study::Kind::quiet_win:
      return "M0 -9L8 0L0 9L-8 0z";
    case study::Kind::trap:
      return "M-7 -7L0 -3L7 -7L3 0L7 7L0 3L-7 7L-3 0z";
    case study::Kind::ended_early:
      return "M-3 -8H3V8H-3z";
    case study::Kind::slide:
      return "M-9 -8L9 2V8L-9 -2z";
    case study::Kind::turn:
      return "M-7 7A7 7 0 1 1 7 7L3 7A3 3 0 1 0 -3 7z";
    case study::Kind::slip:
    case study::Kind::claim:
      return "";  // lead no turning point
  }
  return "";
}

// Of things that want to stand at places in their order, places at least a gap apart, as near as
// can be: those that would touch share their distance (pooled neighbours, as in isotonic
// regression).
std::vector<int> spread(const std::vector<int>& wanted) {
  struct Pool {
    int sum, count;
  };
  std::vector<Pool> pools;
  const auto count = static_cast<int>(wanted.size());
  for (int i = 0; i < count; ++i) {
    pools.push_back({wanted[static_cast<std::size_t>(i)] - i * sign_gap, 1});
    for (std::size_t last = pools.size() - 1; last > 0; --last) {
      const Pool a = pools[last - 1], b = pools[last];
      if (a.sum * b.count <= b.sum * a.count) break;
      pools.pop_back();
      pools.back() = {a.sum + b.sum, a.count + b.count};
    }
  }
  std::vector<int> places;
  for (const Pool& pool : pools) {
    const int place =
        std::max(left, std::min(pool.sum / pool.count, right - (count - 1) * sign_gap));
    for (int i = 0; i < pool.count; ++i) {
      places.push_back(place + static_cast<int>(places.size()) * sign_gap);
    }
  }
  return places;
}

// Where the signs stand. Row 0 is the lowest; the points go round the rows, so that neighbours fall
// into different ones.
struct Spot {
  int x = 0, row = 0;
};

std::vector<Spot> sign_spots(const std::vector<int>& wanted) {
  const std::size_t a_row = (right - left) / sign_gap + 1;
  const std::size_t rows = std::max<std::size_t>(1, (wanted.size() + a_row - 1) / a_row);
  std::vector<Spot> spots(wanted.size());
  for (std::size_t row = 0; row < rows; ++row) {
    std::vector<int> of_row;
    for (std::size_t i = row; i < wanted.size(); i += rows) of_row.push_back(wanted[i]);
    const std::vector<int> places = spread(of_row);
    for (std::size_t i = 0; i < places.size(); ++i) {
      spots[row + i * rows] = {places[i], static_cast<int>(row)};
    }
  }
  return spots;
}

std::size_t ply_on(const TurningPoint& point, const std::vector<double>& values) {
  return std::min(static_cast<std::size_t>(std::max(point.ply, 0)), values.size() - 1);
}

std::vector<Spot> sign_spots(const std::vector<TurningPoint>& points,
                             const std::vector<double>& values) {
  std::vector<int> wanted;
  for (const TurningPoint& point : points) {
    wanted.push_back(x_of(ply_on(point, values), values.size() - 1));
  }
  return sign_spots(wanted);
}

int rows_of(const std::vector<Spot>& spots) {
  int rows = 0;
  for (const Spot& spot : spots) rows = std::max(rows, spot.row + 1);
  return rows;
}

// Each sign is a link with its own title, so that it works without a mouse too. A point stands
// over the position in which it was to be decided; a stem leads there. The sheet behind the sign
// is there for fingers.
std::string signs(const study::Study& study, const std::vector<TurningPoint>& points,
                  const std::vector<double>& values) {
  const std::vector<Spot> spots = sign_spots(points, values);
  std::string stems, links;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const study::Moment& moment = points[i].lead();
    const std::size_t ply = ply_on(points[i], values);
    const std::string x = number(x_of(ply, values.size() - 1));
    const int y = -row_height / 2 - spots[i].row * row_height;
    stems += "M" + number(spots[i].x) + " " + number(y + 9) + "V-2L" + x + " " + number(top - 4) +
             "V" + number(y_of(values[ply]));
    std::string label = numbered(moment.position, move_in_question(moment));
    label += (label.empty() ? "" : ", ") + std::string(words(moment.kind));
    links += "<a href=\"#" + point_anchor(study, points[i]) + "\"><title>" + escaped(label) +
             "</title><g transform=\"translate(" + number(spots[i].x) + " " + number(y) +
             ")\"><path class=\"hit\" d=\"M-12 -13h24v26h-24z\"/><path class=\"sign\" d=\"" +
             std::string(shape_of(moment.kind)) + "\"/></g></a>";
  }
  return stems.empty() ? "" : "<path class=\"stem\" d=\"" + stems + "\"/>" + links;
}

std::string axes(const study::Study& study) {
  const int bottom = top + height;
  std::string svg = "<path class=\"axis\" d=\"M" + number(left) + " " + number(top) + "V" +
                    number(bottom) + "H" + number(right) + "\"/>";
  svg += text_at(left - 6, top + 10, "end", "White") +
         text_at(left - 6, y_of(0.5) + 5, "end", "50 %") +
         text_at(left - 6, bottom, "end", "Black");
  const std::size_t plies = study.moves.size();
  // Numbers at whole moves, about six to eight of them, so that they never touch on a phone.
  const std::size_t step = plies > 160 ? 40 : plies > 60 ? 20 : 10;
  const bool black_starts = study.start.side_to_move() == rules::black;
  const auto first = static_cast<std::size_t>(study.start.fullmove_number());
  for (std::size_t ply = 0; ply <= plies; ++ply) {
    const std::size_t half = ply + (black_starts ? 1 : 0);
    const std::size_t move = first + half / 2;
    if (half % 2 != 0 || move % (step / 2) != 0) continue;
    const int x = x_of(ply, plies);
    svg += "<path class=\"axis\" d=\"M" + number(x) + " " + number(bottom) + "v5\"/>" +
           text_at(x, bottom + 18, "middle", std::to_string(move));
  }
  return svg;
}

// Time left after each move of one side. Readings that are missing leave a straight line.
std::string clock_curve(const study::Study& study, rules::Color side, int most) {
  std::string d;
  const bool black_starts = study.start.side_to_move() == rules::black;
  for (std::size_t i = 0; i < study.moves.size(); ++i) {
    const bool black_moves = (i % 2 == 1) != black_starts;
    const int seconds = study.notes[i].clock_seconds;
    if (black_moves != (side == rules::black) || seconds < 0) continue;
    const std::int64_t drop = std::int64_t{clock_height} * (most - seconds) / most;
    d += (d.empty() ? "M" : "L") + number(x_of(i + 1, study.moves.size())) + " " +
         number(clock_top + static_cast<int>(drop));
  }
  if (d.empty()) return "";
  return "<path class=\"clock" + std::string(side == rules::black ? " two" : "") + "\" d=\"" + d +
         "\"/>";
}

// The scale of the clocks; 0 where the game has none.
int most_seconds(const study::Study& study) {
  int most = 0;
  for (const study::Note& note : study.notes) most = std::max(most, note.clock_seconds);
  return most;
}

// "1:30", hours and minutes.
std::string clock_text(int seconds) {
  const int minutes = seconds / 60;
  return number(minutes / 60) + (minutes % 60 < 10 ? ":0" : ":") + number(minutes % 60);
}

std::string clocks(const study::Study& study, int most) {
  std::string svg = "<path class=\"axis\" d=\"M" + number(left) + " " + number(clock_top) + "V" +
                    number(clock_top + clock_height) + "H" + number(right) + "\"/>";
  svg += text_at(left - 6, clock_top + 10, "end", clock_text(most)) +
         text_at(left - 6, clock_top + clock_height, "end", "0:00");
  return svg + clock_curve(study, rules::white, most) + clock_curve(study, rules::black, most);
}

}  // namespace

std::string game_anchor(const study::GameFacts& facts) {
  return "g" + std::to_string(facts.number);
}

std::string point_anchor(const study::Study& study, const TurningPoint& point) {
  return game_anchor(study.facts) + "-p" + std::to_string(point.ply);
}

std::string graph(const study::Study& study, const std::vector<TurningPoint>& points) {
  const std::vector<double> values = told_expectations(study, points);
  if (values.size() < 2) return "";
  const int most = most_seconds(study);
  const int bottom = most > 0 ? clock_top + clock_height + 8 : top + height + 26;
  const int above = rows_of(sign_spots(points, values)) * row_height;
  std::string svg = "<svg class=\"graph\" viewBox=\"0 " + number(-above) + " 640 " +
                    number(bottom + above) + "\" data-left=\"" + number(left) + "\" data-right=\"" +
                    number(right) +
                    "\" role=\"group\" aria-label=\"White&#39;s expectation over the moves\">";
  svg += area(values, true) + area(values, false) + axes(study);
  svg += "<path class=\"middle\" d=\"M" + number(left) + " " + number(y_of(0.5)) + "H" +
         number(right) + "\"/>";
  svg += curve(values);
  if (most > 0) svg += clocks(study, most);
  return svg + signs(study, points, values) + "</svg>\n";
}

std::string graph_legend(const study::Study& study, const std::vector<TurningPoint>& points) {
  std::string html = "<p class=\"small legend\">Up: White is better; down: Black.";
  for (int k = 0; k < study::kind_count; ++k) {
    const auto kind = static_cast<study::Kind>(k);
    const bool here = std::any_of(points.begin(), points.end(), [kind](const TurningPoint& point) {
      return point.lead().kind == kind;
    });
    if (!here) continue;
    html +=
        " <span><svg class=\"key\" viewBox=\"-10 -10 20 20\" aria-hidden=\"true\"><path "
        "class=\"sign\" d=\"" +
        std::string(shape_of(kind)) + "\"/></svg> " + std::string(words(kind)) + "</span>";
  }
  if (most_seconds(study) > 0) {
    html += ". Below: time left, White&#39;s as a line, Black&#39;s broken.";
  }
  return html + "</p>\n";
}

}  // namespace kairos::report
