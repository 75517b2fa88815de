// Mate prover: exact shortest forced mates, or an honest "don't know".
//
// Exhaustive over all replies; attacking moves are all tried too, so the number found is the
// shortest. `dm N` in any output of kairos comes from here only. Counts full moves of the attacker,
// as people do.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "kairos/rules/position.hpp"

namespace kairos::search {

struct MateProof {
  int moves = 0;                  // proven: mate in exactly `moves`, no shorter
  std::vector<rules::Move> line;  // one shortest line against the longest defence
  std::uint64_t nodes = 0;
};

// A mate by the side to move in at most `max_moves`, or nothing when there is none or `nodes` ran
// out.
std::optional<MateProof> prove_mate(const rules::Position& position, int max_moves,
                                    std::uint64_t nodes);

}  // namespace kairos::search
