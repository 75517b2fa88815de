// Decisions of rated players out of ledgers, for what measures the chances of an error.
#pragma once

#include <string>
#include <vector>

#include "kairos/habits/decisions.hpp"

namespace kairos::expect {

struct Row {
  habits::Decision decision;  // its game is numbered over all ledgers, two for each: one a side
  std::string player;
  double gap = 0;  // what the second best move costs, as far as it counts
};

struct Rows {
  habits::Topics topics;
  std::vector<Row> rows;
};

// Adds those of the ledger; false (and words on the error stream) when it cannot be read.
bool add(const std::string& ledger, Rows& rows);

// "6.52"; "-" where the second is nothing.
std::string quotient(double one, double other);

}  // namespace kairos::expect
