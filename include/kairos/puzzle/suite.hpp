// Suites: EPD files of positions with a known best move (bm), a move to avoid (am) or a mate (dm),
// and whether a search has found what they ask.
//
// Scores are from the side to move. Nothing here searches but the proof of a mate that the search
// did not see to its end.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/rules/position.hpp"
#include "kairos/search/verdict.hpp"

namespace kairos::puzzle {

// One line of the suite: what is asked, or why it asks nothing.
struct SuitePosition {
  std::uint64_t line = 0;
  std::string id;
  rules::Position position = rules::Position::start();
  std::vector<rules::Move> best;   // bm
  std::vector<rules::Move> avoid;  // am
  int mate = 0;                    // dm, in full moves; asked only where bm and am are not
  std::optional<base::Fault> fault;
};

// Every line of the file, those that cannot be read too. Fault: the file itself cannot be read, or
// holds no position.
base::Result<std::vector<SuitePosition>> read_suite(const std::string& file);

// What is asked, as the file has it: "bm Qxh7+", "dm 3".
std::string asked_text(const SuitePosition& asked);

struct SuiteAnswer {
  rules::Move played;  // no move where there is none to find
  search::Score score = 0;
  int depth = 0;
  bool solved = false;
  // When the search settled on a right answer for good, of a solved position.
  std::uint64_t stable_nodes = 0;
  int stable_depth = 0;
};

// `verdict` is that of a search with so many nodes; as many may be spent to prove a mate.
SuiteAnswer answer_of(const SuitePosition& asked, const search::Verdict& verdict,
                      std::uint64_t nodes);

}  // namespace kairos::puzzle
