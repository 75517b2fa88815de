// What a move threatens, and which threat it meets: found by letting the other side pass.
#pragma once

#include "move_facts.hpp"

namespace kairos::study {

// What the side that is not to move would do if it were: nothing while the side to move is in
// check. Men that could be taken with profit, by counting the exchange; or else a mate.
struct Threat {
  std::vector<rules::Square> squares;    // of the men; of a mate, where its last move goes
  std::vector<rules::PieceType> pieces;  // the men; of a mate none
  std::vector<rules::Move> moves;        // that take them, in the same order; the mate's line
  int mate_moves = 0;
  std::uint64_t nodes = 0;

  [[nodiscard]] bool is_none() const { return moves.empty(); }
};
Threat threat_in(const rules::Position& position);

// What the move newly threatens.
std::optional<Reason> threat_of(const MoveFacts& facts, std::uint64_t& nodes);

// The threat that the move meets and that `other`, made in its place, does not.
std::optional<Reason> prevented_by(const MoveFacts& facts, rules::Move other, std::uint64_t& nodes);

}  // namespace kairos::study
