// Two provers of forced mates.
//
// `prove_mate` is exhaustive: exact shortest mates, or an honest "don't know". Attacking moves are
// all tried, so the number found is the shortest. `dm N` in any output of kairos comes from there
// only. Counts full moves of the attacker, as people do.
//
// `mate_by_checks` is the searcher's eye for what alpha-beta sees late: long rows of checks,
// sacrifices among them, where each reply is one of few. Proof-number search, depth first
// (L. V. Allis, Searching for solutions in games and artificial intelligence, 1994; A. Nagai,
// Df-pn algorithm for searching AND/OR trees and its applications, 2002): the attacker's moves are
// checks, the defender's all evasions, and what is looked at next needs the fewest more answers.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/verdict.hpp"

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

// `line` has no moves without a mate; else the mate against the longest defence, with its score. A
// mate found is a proof, though a shorter one may exist; none found proves nothing. At most twice
// `nodes` positions are entered.
struct ForcedMate {
  Line line;
  std::uint64_t nodes = 0;
};
ForcedMate mate_by_checks(const rules::Position& root, std::uint64_t nodes);

}  // namespace kairos::search
