// The fast way to read a move, for the shapes that nearly all have.
#pragma once

#include <string_view>

#include "kairos/rules/move.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::rules {

// The move of "e4", "exd5", "Nf3", "Nbd2", "R1xa3", each with at most one check mark, when it is
// legal and no other man could be meant. "No move" says nothing: the full reader has to look.
Move read_plain_move(const Position& p, std::string_view text) noexcept;

}  // namespace kairos::rules
