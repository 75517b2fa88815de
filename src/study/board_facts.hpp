// What the proofs of reasons ask of a position.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"
#include "kairos/study/reason.hpp"

#include "move_facts.hpp"

namespace kairos::study {

// In centipawns; `a_piece` or the exchange.
inline constexpr search::Score a_pawn = 100, a_piece = 200;

// The most that a capture on the square wins by counting the exchange, for the side to move; 0
// where there is none.
search::Score profit_on(const rules::Position& p, rules::Square square);

// The position with the other side to move; nothing where the side to move is in check.
std::optional<rules::Position> passed(const rules::Position& p);

// Whether the side that moves second in the line soon takes on the square, and is not taken back
// there.
bool is_lost_in(const std::vector<rules::Move>& line, rules::Square square);

// Whether the side that moves second soon takes the man on the square, which stands there after the
// first move, and is not taken back there by the next move with a man worth as much.
bool is_given_up_in(const MoveFacts& facts, rules::Square square);

// Whether men of the type are traded within the line's first moves: taken, and taken back at once
// where they stood.
bool trades_soon(const rules::Position& position, std::span<const rules::Move> line,
                 rules::PieceType man);

// The square, and what stands on it, if anything: empty ones go last.
void add_square(Reason& reason, const rules::Position& p, rules::Square square);

}  // namespace kairos::study
