// Checks without end, proved: whatever the other side replies the next move checks again, until a
// position comes back.
#pragma once

#include <cstdint>

#include "kairos/rules/position.hpp"

namespace kairos::study {

// Whether the side to move has them from here. False also where too many positions would have to be
// looked at. Adds the nodes spent to `nodes`.
bool is_perpetual_from(const rules::Position& p, std::uint64_t& nodes);

}  // namespace kairos::study
