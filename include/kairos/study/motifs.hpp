// Motifs: the trade's names for how a move works, told by rules on the board.
//
// A motif is named only when its rule holds on the line as played out: a fork is no fork until a
// forked man falls. Each rule's definition stands above it in src/study/motifs_*.cpp. No motif is
// better than a wrong one, so `motifs_of` may well return nothing. Pure functions of the position
// and the line; the line is best play from a search or a proof, first the move in question.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "kairos/rules/position.hpp"

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

// "smothered mate", "back rank", "in-between move", ...
std::string_view words(Motif motif);

// What is known of the move before the line; both may be left empty.
struct Prelude {
  const rules::Position* before = nullptr;  // the position in which `last` was played
  rules::Move last;
};

// The motifs of the first move of `line`, most telling first.
std::vector<Motif> motifs_of(const rules::Position& position, std::span<const rules::Move> line,
                             const Prelude& prelude = {});

// Whether the exchange count says that the move leaves a man to be taken: at least two pawns'
// worth.
bool is_sacrifice(const rules::Position& position, rules::Move move);

}  // namespace kairos::study
