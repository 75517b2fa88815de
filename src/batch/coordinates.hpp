// Moves in coordinates, as records hold them, and legal moves from such text.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/rules/position.hpp"

namespace kairos::batch {

// "e2e4", "e7e8q", "0000" for a null move, "-" for no move.
std::string to_coordinates(rules::Move move);
std::string to_coordinates(std::span<const rules::Move> line);

// The move if it can be played: legal, or a null move when not in check. "-" gives "no move".
std::optional<rules::Move> parse_coordinates(const rules::Position& position,
                                             std::string_view text);
// Legal moves played one after the other.
std::optional<std::vector<rules::Move>> parse_coordinate_line(rules::Position position,
                                                              std::string_view text);

}  // namespace kairos::batch
