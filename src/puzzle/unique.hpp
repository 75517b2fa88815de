// Uniqueness: does a position have one right answer?
//
// The best move must stand at least `unique_gap` of expectation above every other, in the last
// finished iteration and in the one before it, which must name the same move.
#pragma once

#include <cstdint>
#include <span>

#include "kairos/puzzle/compose.hpp"
#include "kairos/search/searcher.hpp"

namespace kairos::puzzle {

// Expectation between the key and the second best.
inline constexpr double unique_gap = 0.30;

struct Answer {
  search::Verdict verdict;  // two lines; none when the game is over
  rules::Move key;
  search::Score score = 0;
  search::Score second_score = 0;  // `score` when there is only one legal move
  Drop drop = Drop::none;          // none: unique and stable

  [[nodiscard]] bool unique() const { return drop == Drop::none; }
};

// One legal move counts as unique here.
Answer answer_of(const rules::Position& position, std::span<const rules::Key> earlier,
                 std::uint64_t nodes, search::Searcher& searcher);

}  // namespace kairos::puzzle
