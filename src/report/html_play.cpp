#include "html_play.hpp"

#include <cmath>

#include "kairos/base/foreign.hpp"
#include "kairos/pgn/nag.hpp"
#include "kairos/report/words.hpp"

#include "html_graph.hpp"
#include "html_line.hpp"
#include "html_page.hpp"
#include "labels.hpp"

namespace kairos::report {

namespace {

// The point decided by the move after `ply` half-moves, or by none any more at the end.
const TurningPoint* point_at(const std::vector<TurningPoint>& points, std::size_t ply) {
  for (const TurningPoint& point : points) {
    if (point.ply == static_cast<int>(ply)) return &point;
  }
  return nullptr;
}

// The number of the point as a link to where it is told.
std::string point_link(const study::Study& study, const TurningPoint& point) {
  return "<sup><a href=\"#" + point_anchor(study, point) + "\" aria-label=\"Turning point " +
         std::to_string(point.number) + "\">" + std::to_string(point.number) + "</a></sup>";
}

std::string marked_ply(const study::Study& study, const rules::Position& position, std::size_t ply,
                       const TurningPoint* point) {
  const bool is_numbered = ply == 0 || position.side_to_move() == rules::white;
  const std::string html = ply_html(position, study.moves[ply], is_numbered);
  if (point == nullptr) return html;
  return "<b>" + html + escaped(pgn::suffix_of_nag(move_nag(*point))) + "</b>" +
         point_link(study, *point);
}

std::string worth_of(const study::Study& study, const std::vector<TurningPoint>& points) {
  std::string worth;
  for (const double value : told_expectations(study, points)) {
    worth += (worth.empty() ? "" : " ") + std::to_string(std::lround(value * 100));
  }
  return worth;
}

}  // namespace

std::string score_html(const study::Study& study, const std::vector<TurningPoint>& points,
                       rules::Color below) {
  if (study.moves.empty()) return "";
  std::string html = "<p class=\"score\" data-start=\"" + start_of(study.start) +
                     "\" data-moves=\"" + steps_of(study.start, study.moves) + "\" data-worth=\"" +
                     worth_of(study, points) +
                     (below == rules::black ? "\" data-below=\"b\">" : "\">");
  rules::Position position = study.start;
  for (std::size_t ply = 0; ply < study.moves.size(); ++ply) {
    html += marked_ply(study, position, ply, point_at(points, ply)) + " ";
    position.play(study.moves[ply]);
  }
  html += escaped(base::isolated(study.facts.result));
  const TurningPoint* const last = point_at(points, study.moves.size());
  return html + (last == nullptr ? "" : point_link(study, *last)) + "</p>\n";
}

}  // namespace kairos::report
