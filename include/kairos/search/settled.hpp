// Settled material: what is on the board once the shooting is over, proved by search over material
// alone.
//
// The root side tries every move, the opponent every reply, for a few plies, and the exchanges at
// the end are played out; nothing but men is counted (nominal values 1 3 3 5 9, in centipawns;
// common practice), mate and stalemate apart. Every reply is tried, so a claim "wins a piece" holds
// against any defence within the depth. Returns a value relative to the material on the board at
// the root, from the root side's view. Deterministic; limited by nodes.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

namespace kairos::search {

struct Settled {
  Score gain = 0;  // centipawns of material won (negative: lost); a mate is +-mate_score
  std::vector<rules::Move> line;  // the moves that show it, from the root
  bool complete = true;           // false when the node limit cut the proof: no claim then
  std::uint64_t nodes = 0;
};

struct SettledLimits {
  int plies = 5;  // full-width, before only captures, promotions and evasions are tried
  std::uint64_t nodes = 2'000'000;
};

// The nominal value of a man in centipawns; 0 for a king.
Score nominal_value(rules::PieceType t);
// Nominal material of White minus Black's, and of a side minus the other's.
Score nominal_balance(const rules::Position& position);
Score nominal_balance(const rules::Position& position, rules::Color side);

// The best the side to move can reach; with `first`, what it reaches by that move.
Settled settle(const rules::Position& position, SettledLimits limits = {},
               std::optional<rules::Move> first = std::nullopt);

// The same with one full-width ply, with two and so on up to `limits.plies`, as far as the nodes
// (those of all together) allow; the last may not be complete.
std::vector<Settled> settle_by_depth(const rules::Position& position, SettledLimits limits,
                                     std::optional<rules::Move> first = std::nullopt);

}  // namespace kairos::search
