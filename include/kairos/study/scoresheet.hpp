// The scoresheet of a game: all that its text says, made once and read by everything that studies
// the game. Plain data.
//
// `positions` and `keys` have one entry more than `moves`: entry i is the position after i
// half-moves of the main line. `game` holds the players' own notes, variations and comments.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "kairos/pgn/game.hpp"
#include "kairos/study/study.hpp"

namespace kairos::study {

struct Scoresheet {
  GameFacts facts;
  pgn::Game game;                      // replayed
  std::vector<pgn::NodeId> main_line;  // the nodes of `moves`
  std::vector<rules::Move> moves;
  std::vector<rules::Position> positions;
  std::vector<rules::Key> keys;    // of the positions
  std::vector<int> clock_seconds;  // left after each move, by %clk; -1: not given

  // "No move" before the first and after the last.
  [[nodiscard]] rules::Move move_at(int ply) const;
  // The keys of the positions before `ply`, oldest first.
  [[nodiscard]] std::span<const rules::Key> keys_before(int ply) const {
    return std::span(keys).first(static_cast<std::size_t>(ply));
  }
};

// `game` must be replayed. Facts (`number`, `file`, `line`) are those of the game's place.
Scoresheet scoresheet_of(pgn::Game game);

}  // namespace kairos::study
