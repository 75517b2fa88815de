// What a move does with men and squares where it attacks nothing: trades, guards, squares that the
// move before gave up, pawns, rooks, the king.
#pragma once

#include "move_facts.hpp"

namespace kairos::study {

std::optional<Reason> trade_made(const MoveFacts& facts);
// Against what the other move lets happen (MoveFacts::other).
std::optional<Reason> man_guarded(const MoveFacts& facts);
std::optional<Reason> check_avoided(const MoveFacts& facts);
std::optional<Reason> man_sent_back(const MoveFacts& facts);
std::optional<Reason> square_used(const MoveFacts& facts);
std::optional<Reason> pawn_placed(const MoveFacts& facts);
std::optional<Reason> passed_pawn_met(const MoveFacts& facts);
std::optional<Reason> rook_placed(const MoveFacts& facts);
std::optional<Reason> king_brought(const MoveFacts& facts);

}  // namespace kairos::study
