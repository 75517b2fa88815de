// The samples as the fit reads them: a row of terms for each legal move, which move was played, and
// whether the case belongs to an event held out.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "samples.hpp"
#include "terms.hpp"

namespace kairos::people_tools {

struct Case {
  std::size_t first = 0, moves = 0;  // its rows
  std::size_t played = 0, best = 0;  // which of its moves
  double best_expectation = 0;
  double lead = 0;  // expectation of the best minus that of the second
  int rating = 0;
  bool held_out = false;
};

// `rows` hold term_count numbers each; `costs` one number for each row, in the end.
struct Cases {
  std::vector<Case> list;
  std::vector<float> rows;
  std::vector<double> costs;

  [[nodiscard]] std::span<const float> row(std::size_t at) const {
    return std::span(rows).subspan(at * people::term_count, people::term_count);
  }
};

// The events held out: Biel 2008, Sochi 2008, Dortmund 2014 and rounds 8 and 10 of Gibraltar 2019.
bool is_held_out(const Sample& sample);

Cases read_cases(std::istream& in);

}  // namespace kairos::people_tools
