// What the reports are to hold, as the options of scan and join ask it; and how a player is named
// on the command line.
#pragma once

#include <string>

#include "kairos/batch/players.hpp"

#include "ledger_collection.hpp"

namespace CLI {
class App;
}

namespace kairos::cli {

struct PuzzleChoice {
  std::size_t most = 0;  // 0: all
  int level = 0;         // rating of those they are for; 0: by the games
  std::string from;      // a player
  bool missed = false, found = false;
};

void add_puzzle_options(CLI::App& command, PuzzleChoice& choice);
// Whether annotated.pgn is to be without words.
void add_bare_option(CLI::App& command, bool& bare_pgn);

// The player that a name means, and nobody in particular when it is empty. Faults: nobody or
// several players of the input are meant.
base::Result<batch::Focus> find_focus(const std::string& player, const batch::Input& input);

// What the reports are to show; faults as of `find_focus`.
base::Result<LedgerCollection::Options> collection_options(const PuzzleChoice& choice,
                                                           batch::Focus focus,
                                                           const batch::Input& input);

}  // namespace kairos::cli
