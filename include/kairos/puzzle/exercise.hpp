// A puzzle as an EPD line sets it: kairos's own (report/epd.cpp says what its operations hold) or
// any other line with `bm`; of a why-not (puzzle.hpp) the one that answers the move. Plain data.
//
// Texts are UTF-8 without control characters. Where the line does not say, `puzzle` has no tries,
// no motifs, find rates of 0 and a line of the key alone.
#pragma once

#include <string>
#include <vector>

#include "kairos/puzzle/puzzle.hpp"

namespace kairos::puzzle {

struct Exercise {
  std::string id;                   // "line 12" where the line gives none
  std::vector<rules::Move> keys;    // right first moves; may be empty
  std::vector<std::string> themes;  // as the line has them
  Puzzle puzzle;                    // its line begins with a key

  [[nodiscard]] bool is_key(rules::Move move) const;
};

// The try that begins with the move and is refuted there, or nullptr.
const Try* find_try(const std::vector<Try>& tries, rules::Move move);

}  // namespace kairos::puzzle
