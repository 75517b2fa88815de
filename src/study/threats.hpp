// What a move threatens, and which threat it meets: found by letting the other side pass.
#pragma once

#include "move_facts.hpp"

namespace kairos::study {

// What the move newly threatens.
std::optional<Reason> threat_of(const MoveFacts& facts, std::uint64_t& nodes);

// What men it newly threatens, whether the line minds it or not.
std::optional<Reason> quiet_threat(const MoveFacts& facts);

// The threat that the move meets and that `other`, made in its place, does not.
std::optional<Reason> prevented_by(const MoveFacts& facts, rules::Move other, std::uint64_t& nodes);

}  // namespace kairos::study
