// The puzzle's part of a record (record.hpp).
#pragma once

#include "kairos/base/json.hpp"
#include "kairos/puzzle/puzzle.hpp"

#include "members.hpp"

namespace kairos::batch {

base::Json encode_puzzle(const puzzle::Puzzle& puzzle);
void decode_puzzle(const base::Json& json, Damage& damage, puzzle::Puzzle& puzzle);

}  // namespace kairos::batch
