// What a move attacks, where the line shows that it counts: men hit, driven off, taken with an
// attack; the fork or the threat of mate that the next move makes.
#pragma once

#include "move_facts.hpp"

namespace kairos::study {

std::optional<Reason> men_hit(const MoveFacts& facts);
// A man that the move before left without its guard.
std::optional<Reason> man_left_taken(const MoveFacts& facts);
// Only that it takes one.
std::optional<Reason> man_taken(const MoveFacts& facts);
std::optional<Reason> man_kept_under_attack(const MoveFacts& facts);
std::optional<Reason> fork_to_come(const MoveFacts& facts);
std::optional<Reason> mate_threat_to_come(const MoveFacts& facts);
// `other` would not meet it.
std::optional<Reason> mate_met(const MoveFacts& facts, rules::Move other);

}  // namespace kairos::study
