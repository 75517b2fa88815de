// Tries: the wrong answers people give, each with the reply that shows why it is wrong.
#pragma once

#include "kairos/puzzle/puzzle.hpp"
#include "kairos/study/crowd.hpp"

#include "question.hpp"
#include "unique.hpp"

namespace kairos::puzzle {

struct Tries {
  std::vector<Try> tries;  // at most four, most tempting first
  bool cook = false;       // one of them turned out to be nearly as good as the key
  std::uint64_t nodes = 0;
};

// `nodes` for each try that is searched.
Tries tries_of(const Question& question, const Answer& answer, const study::Crowd& crowd,
               std::uint64_t nodes, search::Searcher& searcher);

}  // namespace kairos::puzzle
