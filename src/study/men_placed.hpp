// What a move does to how men stand: a pin, a knight settled, pawns doubled, a piece got away, a
// king kept from castling.
#pragma once

#include "move_facts.hpp"

namespace kairos::study {

std::optional<Reason> man_pinned(const MoveFacts& facts);
std::optional<Reason> knight_settled(const MoveFacts& facts);
std::optional<Reason> pawns_doubled(const MoveFacts& facts);
std::optional<Reason> man_evaded(const MoveFacts& facts);
std::optional<Reason> castling_stopped(const MoveFacts& facts);
// Against what the other move lets happen (MoveFacts::other).
std::optional<Reason> promotion_stopped(const MoveFacts& facts);
// Of the man on the square, which falls within so many plies of the other line.
std::optional<Reason> man_kept(const MoveFacts& facts, rules::Square s, std::size_t plies);

}  // namespace kairos::study
