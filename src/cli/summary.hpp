// What scan and join print on standard output at their end.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "ledger_collection.hpp"

namespace kairos::cli {

// "91 games: 90 read, 1 skipped", moments by kind, puzzles, and where the files are.
void print_summary(const LedgerCollection& collection, const std::string& folder,
                   const std::vector<std::string>& files, bool json);

// Warns of what was wrong with the input: the first ones in words, the rest as a number.
void warn_of(const std::vector<base::Fault>& faults);

}  // namespace kairos::cli
