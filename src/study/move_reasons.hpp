// The reasons of one move: what it does and wins, as far as its line and the board prove it.
#pragma once

#include "move_facts.hpp"

namespace kairos::study {

// What a move does on the board, not what comes of it.
bool is_deed(const Reason& reason);

// In the order in which they are told; none where nothing is sure. Men are counted from `since`:
// what the move before took counts against this one (null: nothing). A proof takes `limit` nodes at
// the most; those spent are added to `nodes`.
std::vector<Reason> reasons_of_move(const MoveFacts& facts, const rules::Position* since,
                                    std::uint64_t limit, std::uint64_t& nodes);

}  // namespace kairos::study
