// Endings that are known from theory, in front of the network: exact or nearly exact verdicts, and
// factors that shrink an advantage that cannot be won.
#pragma once

#include <optional>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

namespace kairos::search {

// The whole score from White's view, where few men are left and the ending is known.
std::optional<Score> known_ending(const rules::Position& position);

// How much of what the network says for `strong` counts, in 64ths.
inline constexpr int full_scale = 64;
int endgame_scale(const rules::Position& position, rules::Color strong);

}  // namespace kairos::search
