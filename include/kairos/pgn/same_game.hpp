// When two games are the same game, wherever they were read and whatever stands beside the moves.
//
// The same start and the same moves of the main line; of games shorter than `telling_plies`, for
// short draws repeat, also the same surnames. How events and dates are written, clocks, comments
// and variations do not matter. A game without a move is the same as no other. Told by 64 bits of a
// hash: among a million different games the chance that any two share one is about one in 37
// million.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include "kairos/rules/position.hpp"

namespace kairos::pgn {

struct Game;

inline constexpr std::size_t telling_plies = 30;  // enough moves to know a game by them alone

// Equal for the same games; 0 for one without a move.
std::uint64_t identity_of(const Game& game);  // replayed
std::uint64_t identity_of(const rules::Position& start, std::span<const rules::Move> moves,
                          std::string_view white, std::string_view black);

}  // namespace kairos::pgn
