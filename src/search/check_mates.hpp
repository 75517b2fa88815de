// Mates by checks alone, as the searcher's eye for what alpha-beta sees late: long rows of forcing
// moves, sacrifices among them, where each reply is one of few.
//
// Proof-number search, depth first (A. Nagai, Df-pn algorithm for searching AND/OR trees, 2002;
// proof numbers: L. V. Allis, 1994): the attacker's moves are checks, the defender's all evasions,
// and what is looked at next is always what needs the fewest more answers. A mate found is a proof,
// though a shorter one may exist; that none is found proves nothing.
#pragma once

#include <cstdint>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/verdict.hpp"

namespace kairos::search {

// `line.moves` is empty without a mate; else the mate against the longest defence found, its score
// and exact length in plies. `nodes` positions were entered, at most those allowed.
struct ForcedMate {
  Line line;
  std::uint64_t nodes = 0;
};
ForcedMate mate_by_checks(const rules::Position& root, std::uint64_t nodes);

}  // namespace kairos::search
