// What the search does beyond plain alpha-beta, each of which can be taken out: for the comparison
// with its plain twin (tests/oracles) and to measure what each is good for. The program uses all.
#pragma once

#include <cstdint>

namespace kairos::search {

enum class Technique : std::uint8_t {
  // Before the moves of a node.
  transposition_table,  // what earlier visits found
  razoring,             // hopeless nodes go to quiescence
  reverse_futility,     // a static score far above beta ends the node
  null_move,            // so does a pass that still fails high
  probcut,              // so does a capture that beats beta by a margin in a shallower search
  internal_reduction,   // less depth without a table move
  // Its moves.
  killers,
  continuation_history,
  exchange_pruning,      // moves that lose too much by exchanges are left out
  late_move_pruning,     // late quiet moves are left out
  futility_pruning,      // quiet moves too far below alpha are left out
  history_pruning,       // quiet moves that did badly before are left out
  late_move_reductions,  // late moves are first searched with less depth
  singular_extensions,   // more depth for a move that alone holds the score up
  check_extensions,
  // Quiescence.
  quiescence_checks,  // quiet checks at its first ply
  delta_pruning,      // captures that cannot reach alpha are left out
  few_evasions,       // late quiet evasions are left out
  // Around it.
  correction_history,
  aspiration_windows,
  mates_by_checks,
};
inline constexpr int technique_count = 21;

class Techniques {
 public:
  static constexpr Techniques all() { return Techniques(~std::uint32_t{0}); }
  static constexpr Techniques none() { return Techniques(0); }

  [[nodiscard]] constexpr bool has(Technique t) const { return (bits_ & bit_of(t)) != 0; }
  [[nodiscard]] constexpr Techniques with(Technique t) const {
    return Techniques(bits_ | bit_of(t));
  }
  [[nodiscard]] constexpr Techniques without(Technique t) const {
    return Techniques(bits_ & ~bit_of(t));
  }

 private:
  explicit constexpr Techniques(std::uint32_t bits) : bits_(bits) {}
  static constexpr std::uint32_t bit_of(Technique t) {
    return std::uint32_t{1} << static_cast<int>(t);
  }

  std::uint32_t bits_;
};
static_assert(static_cast<int>(Technique::mates_by_checks) + 1 == technique_count);

}  // namespace kairos::search
