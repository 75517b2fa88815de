// Samples for the model of players: a position of a game with its looks at all legal moves, and
// the move that was played. One sample a line of text:
//
//   FILE ROUND RATING | FEN | last took own_last | played | move:glance:soon:end ...
//
// Moves as the 16 bits of rules::Move, expectations in ten-thousandths of the side to move.
#pragma once

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "kairos/people/share.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::people_tools {

struct Sample {
  std::string file;  // its name without the folder
  int round = 0;     // 0: not a number
  int rating = 0;    // of the side to move
  rules::Position position = rules::Position::start();
  people::Before before;
  rules::Move played;
  std::vector<people::Judged> judged;
};

void write(std::ostream& out, const Sample& sample);
// Nothing at the end, or where a line is no sample.
std::optional<Sample> read(std::istream& in);

}  // namespace kairos::people_tools
