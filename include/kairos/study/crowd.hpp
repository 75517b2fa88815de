// What players would play in one position, by the model of players (people/shares.hpp).
//
// Looks at all legal moves once, with a searcher of its own (all_moves.hpp); nothing else changes
// by it, and the same position and history give the same answers.
//
//   const Crowd crowd(position, earlier, before);
//   crowd.players_of(move, 1900);   // 1,240: about one in eight
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "kairos/people/share.hpp"
#include "kairos/rules/position.hpp"
#include "kairos/study/moment.hpp"
#include "kairos/study/scoresheet.hpp"

namespace kairos::study {

class Crowd {
 public:
  // `earlier` are the keys before the position, which is copied; `nodes` bounds the looks.
  Crowd(const rules::Position& position, std::span<const rules::Key> earlier,
        const people::Before& before, std::uint64_t nodes);

  // How many of `find_rate_of` players of that rating would play the move; 0 of an illegal one.
  [[nodiscard]] int players_of(rules::Move move, int rating) const;
  // All legal moves, those that most players of the rating would play first.
  [[nodiscard]] std::vector<rules::Move> by_share(int rating) const;

 private:
  rules::Position position_;
  people::Before before_;
  std::vector<people::Judged> judged_;
};

// The position at `ply` of the game.
Crowd crowd_at(const Scoresheet& sheet, int ply, std::uint64_t nodes);

}  // namespace kairos::study
