// Legal replay: gives every node of a game its Move, or says where the game stops making sense.
//
// The start position comes from the FEN tag (with or without SetUp, section 9.7). In the main line
// the first move that cannot be played cuts the game there (the tree is pruned from that node on,
// `fault` says why); in a variation only that variation is cut and the fault is reported as a
// diagnostic. Games of other variants, with an impossible FEN, or with SetUp "1" and no FEN (nobody
// knows what their moves were played on) are refused. Null moves are allowed in variations only.
#pragma once

#include <cstdint>
#include <optional>

#include "kairos/base/diagnostics.hpp"
#include "kairos/pgn/game.hpp"

namespace kairos::pgn {

struct Replay {
  // playable: every main-line move is legal; cut: legal up to `plies`; refused: cannot be studied.
  enum class State : std::uint8_t { playable, cut, refused };
  State state = State::playable;
  std::size_t plies = 0;                            // legal main-line moves
  rules::Position last = rules::Position::start();  // after those; of a refused game meaningless
  std::optional<base::Fault> fault;                 // unless playable
};

Replay replay(Game& game, base::Diagnostics& diagnostics);

}  // namespace kairos::pgn
