// The games of files that can be played through, for the tools that learn from open games.
#pragma once

#include <iostream>

#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"

namespace kairos::learn {

// `work` is given each game, in order. False, and said on standard error, when the file cannot be
// read.
template <typename Work>
bool each_game(const char* file, const Work& work) {
  auto source = pgn::open_games(file);
  if (!source) {
    std::cerr << base::describe(source.fault()) << '\n';
    return false;
  }
  base::FaultList faults;
  pgn::Reader reader(**source, file, faults);
  while (auto game = reader.next()) {
    if (pgn::replay(*game, faults).state == pgn::Replay::State::playable) work(*game);
  }
  return true;
}

}  // namespace kairos::learn
