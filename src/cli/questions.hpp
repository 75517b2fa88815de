// The puzzles of an EPD file as they are put to people one after the other (quiz, tally).
#pragma once

#include <string>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/puzzle/exercise.hpp"

namespace kairos::cli {

// Those that can be asked: with a key to find. Warns of lines that cannot be read and of those
// without a key. Faults: the file is none, or has nothing to ask.
base::Result<std::vector<puzzle::Exercise>> questions_of(const std::string& file);

// Whether a file of scores can be written; an error is told here, before the first question and not
// after the first answer.
bool can_write_score(const std::string& file);

}  // namespace kairos::cli
