#include "kairos/report/diagrams.hpp"

#include <algorithm>

#include "html_game.hpp"
#include "html_graph.hpp"

namespace kairos::report {

namespace {

Picture picture_of(const rules::Position& position, const Marks& marks) {
  Picture picture;
  picture.position = position;
  picture.below = position.side_to_move();
  picture.last = marks.last;
  picture.rings = marks.squares;
  const auto add = [&picture](rules::Move move, ArrowLine line) {
    if (move) picture.arrows.push_back({move.from(), move.to(), line});
  };
  add(marks.better, ArrowLine::whole);
  add(marks.played, ArrowLine::broken);
  add(marks.avoided, ArrowLine::dotted);
  return picture;
}

// A number at the front, taken away.
bool takes_number(std::string_view& rest) {
  const auto end = std::min(rest.find_first_not_of("0123456789"), rest.size());
  rest.remove_prefix(end);
  return end > 0;
}

bool takes(std::string_view& rest, std::string_view part) {
  if (!rest.starts_with(part)) return false;
  rest.remove_prefix(part.size());
  return true;
}

base::Status each_puzzle(const std::vector<puzzle::Puzzle>& puzzles, const TakeDiagram& take) {
  for (const puzzle::Puzzle& puzzle : puzzles) {
    Marks marks{puzzle.last, {}};
    marks.avoided = puzzle.avoided;
    auto taken = take(puzzle::id_of(puzzle), picture_of(puzzle::shown_position(puzzle), marks));
    if (!taken) return taken;
  }
  return base::done();
}

}  // namespace

base::Status each_diagram(const Collection& collection, const TakeDiagram& take) {
  for (std::size_t i = 0; i < collection.size(); ++i) {
    const study::Study study = collection.load(i);
    for (const TurningPoint& point : turning_points(study)) {
      auto taken = take(point_anchor(study, point),
                        picture_of(point.lead().position, marks_of(study, point)));
      if (!taken) return taken;
    }
  }
  auto taken = each_puzzle(collection.puzzles(), take);
  return taken ? each_puzzle(collection.why_nots(), take) : taken;
}

bool is_diagram_name(std::string_view name) {
  if (!takes(name, "g") || !takes_number(name)) return false;
  if (takes(name, "-p")) return takes_number(name) && name.empty();
  if (!takes(name, "-m") || !takes_number(name)) return false;
  if (!takes(name, "w") && !takes(name, "b")) return false;
  return name.empty() || name == "-whynot";
}

}  // namespace kairos::report
