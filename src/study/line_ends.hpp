// What a line comes to where it wins no men: a draw by force, an attack on the king, a passed pawn
// that goes on, an ending of another kind.
#pragma once

#include "move_facts.hpp"

namespace kairos::study {

std::optional<Reason> draw_by_force(const MoveFacts& facts, std::uint64_t& nodes);
std::optional<Reason> attack_on_king(const MoveFacts& facts);
std::optional<Reason> opened_king(const MoveFacts& facts);
std::optional<Reason> running_pawn(const MoveFacts& facts);
std::optional<Reason> ending_entered(const MoveFacts& facts);

}  // namespace kairos::study
