// What a line wins on the board.
#pragma once

#include "move_facts.hpp"

namespace kairos::study {

// Best play wins material in the line: at the earliest place within `longest_line` where it stands
// (search over material alone takes nothing of it back) and is kept to the end of the line, or at a
// later one where more does, as long as the score tells of more than the men won so far.
// Counted from `since`; a reason of the kind soon_wins whose line ends there. Nothing where no pawn
// at least is won or the score does not bear it out; a single pawn only where it falls soon, unless
// `pawns` says otherwise. Adds the nodes spent to `nodes`.
enum class Pawns : std::uint8_t { soon, late };
std::optional<Reason> gain_in_line(const MoveFacts& facts, const rules::Position& since,
                                   std::uint64_t& nodes, Pawns pawns = Pawns::soon);

// A score further than this above the men on the board tells of more than men.
inline constexpr search::Score more_than_men = 200;

// Whether so much is still won at the end of the line, when the exchanges there are over.
bool keeps_to_the_end(const MoveFacts& facts, const rules::Position& since, search::Score gain,
                      std::uint64_t& nodes);

// Fills what the reason's line takes: its squares, the men on them; and of the men won names the
// knights or bishops that are really taken, and of a single man where it stands before.
void name_what_is_taken(Reason& reason, const rules::Position& position);

// Whether the move only offers a trade: what the line takes first falls on the square that the move
// goes to, and the move itself takes nothing. What comes of it later is not told of such a move.
bool offers_a_trade(const Reason& reason, const rules::Position& position);

// The least score that bears out a balance reached by a gain: far below it, the searcher sees the
// gain given back beyond the horizon of what was looked at.
search::Score bearable(search::Score balance, search::Score gain);

}  // namespace kairos::study
