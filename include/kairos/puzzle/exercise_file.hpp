// Puzzles read back from an EPD file, one exercise a line; and a choice among them.
//
// Lines that cannot be read are faults with file and line, and passed over; so much is read as
// pgn/position_lines.hpp keeps at most.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/puzzle/exercise.hpp"

namespace kairos::puzzle {

struct ExerciseFile {
  std::vector<Exercise> exercises;
  base::Faults faults;  // of lines that cannot be read
};

// Faults of the result: the file cannot be read, or holds no position.
base::Result<ExerciseFile> read_exercises(const std::string& file);

// The one with that id; the fault names the nearest.
base::Result<Exercise> find_exercise(const std::string& file, const std::string& id);

// Keeps those of which a theme holds the word, whatever its case. Fault: none does; it names the
// themes there are.
base::Status keep_theme(std::vector<Exercise>& exercises, std::string_view word);

// Those first whose find rate fits the level (rates.hpp); both parts stay in their order, and
// exercises without find rates are among the others.
void put_fitting_first(std::vector<Exercise>& exercises, int level);

}  // namespace kairos::puzzle
