// What a move does by force, proved: a mate or material.
//
// Mates are proved by the mate prover, material by search over material alone with all replies
// tried (settled.hpp). The material must stand at two depths in a row, as deep as the nodes allow,
// and the searcher's score must bear it out: the proof ends at a horizon, the searcher sees past
// it. Where one of them does not hold, nothing is claimed. Deterministic, needs no searcher.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"
#include "kairos/study/reason.hpp"

namespace kairos::study {

// The one rule of what a proof may cost: as many nodes as the search whose finding it proves was
// given, but no fewer than a proof of a few moves takes.
constexpr std::uint64_t proof_nodes(std::uint64_t search_nodes) {
  return std::max<std::uint64_t>(search_nodes, 200'000);
}

struct Proof {
  std::optional<Reason> reason;  // of a kind from mates to wins_back; its role is not set
  std::uint64_t nodes = 0;
};

// `score` is the searcher's word on the move: a mate score is tried to be proved a mate, any other
// must be in keeping with the material claimed. Material is counted from `since`, the position
// before the exchange that `move` answers, so that taking back what was taken is no gain but
// wins_back; by default from `position` itself. `nodes` is the limit.
Proof prove_forced(const rules::Position& position, rules::Move move, search::Score score,
                   std::uint64_t nodes, const rules::Position* since = nullptr);

// Material alone.
Proof prove_material(const rules::Position& position, rules::Move move, search::Score score,
                     std::uint64_t nodes, const rules::Position* since = nullptr);

// The difference in men between two positions, as won by `side`; nothing when it has won none.
std::optional<MenWon> men_won(const rules::Position& from, const rules::Position& to,
                              rules::Color side);

}  // namespace kairos::study
