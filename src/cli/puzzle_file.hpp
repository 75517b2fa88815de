// Puzzles read back from an EPD file: kairos's own (report/epd.cpp says what its operations hold)
// or any other with `bm`.
#pragma once

#include <string>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/puzzle/puzzle.hpp"

namespace kairos::cli {

// What an EPD line asks; its texts are UTF-8 without control characters. Where the line does not
// say, `puzzle` has no tries, no motifs and a line of the key alone.
struct AskedPuzzle {
  std::string id;                   // "line 12" where the line gives none
  std::vector<rules::Move> keys;    // right first moves; may be empty
  std::vector<std::string> themes;  // as the line has them
  puzzle::Puzzle puzzle;            // its line begins with a key
};

struct PuzzleFile {
  std::vector<AskedPuzzle> puzzles;
  base::Faults faults;  // of lines that cannot be read, with file and line
};

// The try that begins with the move and is refuted there, or nullptr.
const puzzle::Try* find_try(const std::vector<puzzle::Try>& tries, rules::Move move);

// Faults of the result: the file cannot be read, or holds no position.
base::Result<PuzzleFile> read_puzzles(const std::string& file);

// The one with that id; the fault names the nearest.
base::Result<AskedPuzzle> find_puzzle(const std::string& file, const std::string& id);

}  // namespace kairos::cli
