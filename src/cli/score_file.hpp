// The score file of a quiz (audience/again.hpp has its format), which several quizzes may share;
// and that of an evening (audience/evening.hpp).
#pragma once

#include "kairos/audience/again.hpp"
#include "kairos/audience/evening.hpp"

namespace kairos::cli {

// A file that is not there or empty holds none. Faults: as of `parse_scores`, or it is no plain
// file, or cannot be read.
base::Result<audience::QuizScores> read_scores(const std::string& file);

// Counts one answer, given on that day, in what the file holds by now: no answer is lost. The file
// is replaced as a whole. Faults: as of `read_scores`, or it cannot be written.
base::Status add_answer(const std::string& file, const puzzle::Exercise& exercise, bool right,
                        audience::Day today);

// The same for an evening: a question is over.
base::Result<audience::Evening> read_evening(const std::string& file);
base::Result<audience::Evening> add_question(const std::string& file,
                                             const puzzle::Exercise& exercise,
                                             const std::vector<audience::Solver>& solvers);

}  // namespace kairos::cli
