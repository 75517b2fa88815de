// The rules of the motifs, on the board.
//
// A motif is named only when its rule holds on the line as played out: a fork is no fork until a
// forked man falls. Each rule's definition stands above it in src/study/motifs_*.cpp. No motif is
// better than a wrong one, so `motifs_of` may well return nothing. Pure functions of the position
// and the line; the line is best play from a search or a proof, first the move in question.
#pragma once

#include <span>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/study/reason.hpp"

namespace kairos::study {

// What is known beside the line; all may be left empty.
struct Prelude {
  const rules::Position* before = nullptr;  // the position in which `last` was played
  rules::Move last;                         // the move before the line
  bool is_draw = false;  // a search has found that the line draws, and that its mover can't win
};

// The motifs of the first move of `line`, most telling first.
std::vector<Motif> motifs_of(const rules::Position& position, std::span<const rules::Move> line,
                             const Prelude& prelude = {});

// Whether the exchange count says that the move leaves a man to be taken: at least two pawns'
// worth.
bool is_sacrifice(const rules::Position& position, rules::Move move);

}  // namespace kairos::study
