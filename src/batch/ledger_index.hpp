// Where the records of a ledger lie, and in which order they belong.
#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include "kairos/batch/run.hpp"
#include "kairos/rules/piece.hpp"
#include "kairos/study/examine.hpp"

#include "ledger_file.hpp"

namespace kairos::batch {

struct LedgerIndex {
  // The last record for one thing, and those before it, should that turn out to be wrong.
  struct Slot {
    Extent now{};
    std::vector<Extent> earlier{};

    [[nodiscard]] bool empty() const { return now.empty(); }
    void put(Extent extent);
    void drop();
  };
  struct Entry {  // of one game
    Slot game{};
    Slot survey{};
    std::vector<study::Candidate> candidates{};  // and the rest of the survey:
    rules::Color first_side = rules::white;
    int length = 0;  // half-moves
    std::uint64_t survey_nodes = 0;
    std::map<int, Slot> findings{};  // by ply
  };

  Extent header{};
  Extent input{};
  std::map<GameKey, Entry> entries{};
};

// All records, as they lie in the file.
std::vector<Extent> in_file_order(const LedgerIndex& index);
// All records in the order in which a single run over the input writes them (ledger.hpp); behind
// them those of games that are not in the input.
std::vector<Extent> in_run_order(const LedgerIndex& index, const Input& input);

}  // namespace kairos::batch
