// Static exchange evaluation: what the captures on one square come to when each side may stop.
//
// Values are nominal (settled.hpp). Men pinned to their king do not take part while the pinning man
// stands; apart from that only the one square is looked at.
#pragma once

#include <array>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

namespace kairos::search {

// nominal_value (settled.hpp) without the call: by PieceType, 0 for a king and for nothing.
inline constexpr std::array<Score, 7> nominal_values = {100, 300, 300, 500, 900, 0, 0};

// Whether the move's exchanges come to at least `threshold`; the fast form for the search.
bool exchange_at_least(const rules::Position& position, rules::Move move, Score threshold);

}  // namespace kairos::search
