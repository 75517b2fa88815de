// Clock readings in PGN comments: the command `[%clk h:mm:ss]` of the 2001 draft supplement to the
// PGN standard (the time left on the mover's clock after the move). Fractions of a second, which
// some files add, are cut off. Pure functions on text.
#pragma once

#include <string_view>

#include "kairos/pgn/game.hpp"

namespace kairos::study {

// Seconds by the first readable clock command in `comment`, or -1.
int clock_seconds(std::string_view comment);
// The same for a node of a game, all its comments considered.
int clock_seconds(const pgn::Game& game, pgn::NodeId node);

}  // namespace kairos::study
