// From a verified moment to a puzzle, or to the reason why there is none.
//
// A puzzle is kept only when its key is unique, every later solver's move is unique or the line
// stops before it, the reward is reached on the board, and all this holds at the puzzle effort and
// at the iteration before it. Each call clears the searcher first.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "kairos/puzzle/puzzle.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/study/scoresheet.hpp"
#include "kairos/study/settings.hpp"

namespace kairos::puzzle {

struct Composition {
  std::optional<Puzzle> puzzle;
  Drop drop = Drop::none;  // why there is no puzzle
};

// `found` are all moments of that ply: one question is asked once.
Composition compose(const study::Scoresheet& sheet, const study::Moment& moment,
                    std::span<const study::Moment> found, const study::Settings& settings,
                    search::Searcher& searcher);

// Leaves the `most` best of them for players of that level, twins or not, in the order of their
// quality: for those who gather more puzzles than they can hold.
void keep_best(std::vector<Puzzle>& puzzles, std::size_t most, int level = study::unrated);

// The set as a whole: twins merged (the same key in the same structure), best for that level first,
// and mixed. `most` 0 means all; else as many, of each game one before any game gives a second.
std::vector<Puzzle> arrange(std::vector<Puzzle> puzzles, std::size_t most = 0,
                            int level = study::unrated);

}  // namespace kairos::puzzle
