// A line of the stage. Its moves stand in words, so that it is read without the script, and each
// with its position, so that the script needs to know no rules.
#include "kairos/report/plain.hpp"
#include "kairos/rules/fen.hpp"

#include "html_page.hpp"
#include "html_stage.hpp"

namespace kairos::report {

std::string placement(const rules::Position& position) {
  const std::string fen = rules::to_fen(position);
  return fen.substr(0, fen.find(' '));
}

std::string squares_of(rules::Move move) {
  return move ? rules::to_string(move.from()) + rules::to_string(move.to()) : "";
}

std::string stage_line(const StageLine& line) {
  std::string moves, frames;
  rules::Position position = line.start;
  for (std::size_t i = 0; i < line.moves.size(); ++i) {
    const rules::Move move = line.moves[i];
    const bool goes_on = i == line.asked && i > 0;
    if (goes_on) moves += " then, for instance,";
    const bool is_numbered = i == 0 || goes_on || position.side_to_move() == rules::white;
    moves += " <span class=\"ply\">" +
             escaped(is_numbered ? numbered(position, move) : plain_san(position, move)) +
             "</span>";
    position.play(move);
    frames += (i > 0 ? "|" : "") + placement(position) + " " + squares_of(move);
  }
  return std::string("<li class=\"") + (line.right ? "right" : "wrong") + "\" data-frames=\"" +
         frames + "\"><span class=\"what\">" + escaped(line.label) + "</span>" + moves +
         (line.worth.empty() ? "" : " <span class=\"worth\">" + escaped(line.worth) + "</span>") +
         "</li>\n";
}

}  // namespace kairos::report
