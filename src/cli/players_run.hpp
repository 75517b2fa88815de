// kairos habits --players: a page for each player of a file, and the overview of all.
#pragma once

#include <string>
#include <vector>

#include "kairos/rules/letters.hpp"

#include "exit_codes.hpp"
#include "player_page.hpp"
#include "pupils.hpp"

namespace kairos::cli {

struct PlayersRun {
  std::string folder;  // empty: nothing is written, the overview is printed
  bool json = false;   // an object of each player is printed, a line each
  rules::Letters letters = rules::Letters::english;
};

// All names are looked for, and all folders looked at, before anything is written. A player whose
// name means nobody or several people is told of with file and line and left out: the code is then
// exit_not_held, or exit_usage where nobody is left. Two lines that name one player end it.
ExitCode run_players(const PageSources& sources, const std::vector<Pupil>& pupils,
                     const PlayersRun& run);

}  // namespace kairos::cli
