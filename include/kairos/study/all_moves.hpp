// Looks of three lengths at all legal moves of a position: what the model of players (people) is
// handed, when it was fitted as well as when it is asked.
//
// A glance of few nodes, one ten times as long, and one that goes on with the moves that still
// matter. The searcher is one of its own that knows nothing from before, so the same position and
// history give the same looks, whatever was searched else. Costs some `most_nodes_of_looks` nodes,
// or as many as are given, in the same parts: a study of little effort does not look long here.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "kairos/people/share.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::study {

inline constexpr std::uint64_t most_nodes_of_looks = 40'000;

// One entry for each legal move, in the generator's order. `earlier` are the keys before
// `position`.
std::vector<people::Judged> judge_all_moves(const rules::Position& position,
                                            std::span<const rules::Key> earlier,
                                            std::uint64_t nodes = most_nodes_of_looks);

// What was played before the position after `ply` half-moves of a game; `positions` and `moves` as
// of a scoresheet.
people::Before before_of(std::span<const rules::Position> positions,
                         std::span<const rules::Move> moves, std::size_t ply);

}  // namespace kairos::study
