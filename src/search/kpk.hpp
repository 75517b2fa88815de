// King and pawn against king, solved exactly when first asked for (a retrograde table of 24 KB).
//
// The pawn's side is `strong`; squares are as on the board, any file. Thread-safe.
#pragma once

#include "kairos/rules/piece.hpp"
#include "kairos/rules/square.hpp"

namespace kairos::search {

bool pawn_wins(rules::Color strong, rules::Square strong_king, rules::Square pawn,
               rules::Square weak_king, rules::Color side_to_move);

}  // namespace kairos::search
