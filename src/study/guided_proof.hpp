// Material won by force beyond the reach of a full-width proof, with the searcher as a guide.
//
// After the move every reply is tried. Where search over material alone (settled.hpp) shows that
// the mover keeps the wanted balance, that reply is dealt with; where it does not, the searcher
// names one move against it, and every reply to that is tried in turn. So the defender's choices
// are all looked at, the attacker's only as far as one good answer to each: enough for a proof, and
// far deeper than trying everything. Leaves are settled material, or a mate the searcher has found.
#pragma once

#include <cstdint>
#include <vector>

#include "kairos/search/searcher.hpp"
#include "kairos/search/settled.hpp"

namespace kairos::study {

struct GuidedLimits {
  explicit GuidedLimits(std::uint64_t verify_nodes);

  int answers = 6;                // moves of the guide one after the other
  int searches = 100;             // questions to the guide in all
  std::uint64_t nodes;            // for each of them
  search::SettledLimits settled;  // for each reply
  std::uint64_t total;            // nodes of all; what is begun by then is finished
};

struct GuidedProof {
  bool proved = false;
  std::uint64_t nodes = 0;
};

// Whether the side that plays `move` comes out at least `gain` centipawns of material ahead of what
// it has in `position`, or mates.
GuidedProof prove_gain(const rules::Position& position, std::span<const rules::Key> earlier,
                       rules::Move move, search::Score gain, const GuidedLimits& limits,
                       search::Searcher& searcher);

}  // namespace kairos::study
