// Intake: all games of all input files into the ledger, before any is studied.
//
// One pass over each file (so standard input works). Every game gets its number, also those that
// are left out; each of these, and all other damage, is in Input::faults with file, line and game.
// Left out: what replay refuses (other variants, impossible set-ups) and games that are the same as
// an earlier one (pgn/same_game.hpp; without a move: word for word). A game with an illegal move
// goes in up to there. A file that breaks off (damaged gzip) counts with what came before. Games
// that the ledger has already are not written again.
//
// Memory holds one game and some words on each of the first `most_games` that can be studied, a
// kilobyte at worst. Those behind them are counted, and the first fault says so; of the faults the
// first are kept (base::most_faults) and how many there were.
//
// An opening move counts as shared when the position it leads to stood in `many_games` games of the
// input, this one included. Only the first `opening_plies` are looked at.
#pragma once

#include <atomic>
#include <string>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/batch/ledger.hpp"
#include "kairos/batch/run.hpp"

namespace kairos::batch {

// Two weeks' work for a processor core at the lightest effort.
inline constexpr std::size_t most_games = 50'000;
inline constexpr int many_games = 5;
inline constexpr int opening_plies = 30;

// Only the games of the ledger's part are stored, but all are listed. When `stop` becomes true the
// input is returned as far as it was read, not complete. Faults of the result: the ledger cannot be
// written, a file cannot be opened, or nothing in any of them is a game.
base::Result<Input> take_in(const std::vector<std::string>& files, Ledger& ledger,
                            const std::atomic<bool>& stop);

}  // namespace kairos::batch
