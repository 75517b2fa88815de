// Phrases on the board: the last step of reading, shared by the readers of typed moves and of what
// is meant by them.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "kairos/audience/typed.hpp"

#include "typed_phrase.hpp"

namespace kairos::audience {

// The first way to put the words together that the board bears out; else what is wrong with the
// first.
struct Found {
  TypedMove typed;
  std::size_t end = 0;  // one past the last word
};
Found resolve(const rules::Position& p, const std::vector<Phrase>& phrases);

// The reply that a solver who gave only his own moves has left out: when he has followed `known` so
// far, and what he says next is the move behind it.
std::optional<rules::Move> left_out(const rules::Position& p, const std::vector<Phrase>& phrases,
                                    std::span<const rules::Move> moves,
                                    std::span<const rules::Move> known);

}  // namespace kairos::audience
