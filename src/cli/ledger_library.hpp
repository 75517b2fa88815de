// Several ledgers read at once, and the collections that look at them; neither may move once read.
#pragma once

#include <deque>
#include <string>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/batch/ledger.hpp"

#include "ledger_collection.hpp"

namespace kairos::cli {

class LedgerLibrary {
 public:
  // Tells what damage it finds. Refused: results of another evaluation or other definitions than
  // the first ledger's of `beside`, which may be this library.
  base::Status read(const std::string& path, const LedgerLibrary& beside);

  [[nodiscard]] const std::deque<LedgerCollection>& collections() const { return collections_; }
  // Both names of every game, as in the tags.
  [[nodiscard]] std::vector<std::string> names() const;

 private:
  std::deque<batch::Ledger> ledgers_;
  std::deque<LedgerCollection> collections_;
};

}  // namespace kairos::cli
