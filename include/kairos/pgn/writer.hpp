// The PGN writer: export format of the PGN standard (sections 3.2.1 and 8) for a replayed game.
//
// Seven tags first in their order, then the others by ASCII order of name; movetext filled to fewer
// than 80 columns; `12.` before White's moves and `12...` before Black's after a comment or at a
// start; suffix marks as NAGs; `\` and `"` escaped in tags; comments as `{ }` with any inner `}`
// made `)`. Text goes out as UTF-8. The same game gives the same bytes; reading them again gives
// the same tree.
#pragma once

#include <string>

#include "kairos/pgn/game.hpp"

namespace kairos::pgn {

std::string to_pgn(const Game& game);

// The replayed game that reading the text of `game` gives, without reading it. Places of moves are
// still those of the file that `game` came from.
Game exported(Game game);

}  // namespace kairos::pgn
