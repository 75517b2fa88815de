// Scoresheets of studies that tests write by hand.
#pragma once

#include "kairos/study/scoresheet.hpp"

namespace kairos::support {

// The study's moves as a game.
inline pgn::Game game_of(const study::Study& study) {
  pgn::Game game = pgn::empty_game();
  game.start = study.start;
  pgn::NodeId at = 0;
  for (const rules::Move move : study.moves) at = game.add_child(at, move);
  return game;
}

inline study::Scoresheet sheet_of(const study::Study& study) {
  study::Scoresheet sheet = study::scoresheet_of(game_of(study));
  sheet.facts = study.facts;
  return sheet;
}

}  // namespace kairos::support
