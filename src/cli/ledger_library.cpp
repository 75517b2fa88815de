#include "ledger_library.hpp"

#include "kairos/batch/players.hpp"

#include "summary.hpp"

namespace kairos::cli {

base::Status LedgerLibrary::read(const std::string& path, const LedgerLibrary& beside) {
  base::FaultList damage;
  auto ledger = batch::Ledger::read(path, damage);
  warn_of(damage.faults);
  if (!ledger) return std::move(ledger).faults();
  if (!beside.ledgers_.empty()) {
    const std::string what = batch::unlike(ledger->header(), beside.ledgers_.front().header());
    if (!what.empty()) {
      return base::Fault{
          base::Code::ledger_evaluation, what + " as in the first ledger", {.file = path}};
    }
  }
  if (!ledger->input()) {
    return base::Fault{base::Code::ledger_damaged, "no games were taken in", {.file = path}};
  }
  const batch::Ledger& kept = ledgers_.emplace_back(std::move(*ledger));
  collections_.emplace_back(kept, *kept.input(), LedgerCollection::Options{});
  return base::done();
}

std::vector<std::string> LedgerLibrary::names() const {
  std::vector<std::string> names;
  for (const batch::Ledger& ledger : ledgers_) {
    const std::vector<std::string> more = batch::names_in(*ledger.input());
    names.insert(names.end(), more.begin(), more.end());
  }
  return names;
}

}  // namespace kairos::cli
