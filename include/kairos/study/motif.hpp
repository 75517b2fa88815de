// Motifs: the trade's names for how a move works. Plain data; the rules are motifs.hpp's.
#pragma once

#include <cstdint>
#include <string_view>

namespace kairos::study {

// Most telling first: the order in which they are named.
enum class Motif : std::uint8_t {
  smothered_mate,
  back_rank,
  double_check,
  discovered_check,
  stalemate,
  perpetual_check,
  underpromotion,
  zugzwang,
  in_between_move,
  interference,
  decoy,
  overloaded,
  deflection,
  removing_the_guard,
  x_ray,
  discovered_attack,
  skewer,
  fork,
  pin,
  trapped_piece,
  clearance,
  promotion,
  miscount,
  hanging_piece,
  sacrifice,
};
inline constexpr int motif_count = 25;

// "smothered mate", "back rank", "in-between move", ...: the term that people use and that files
// hold, so it never changes.
std::string_view name_of(Motif motif);

}  // namespace kairos::study
