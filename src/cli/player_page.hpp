// A player's page made from ledgers: games, habits and season, puzzles.
#pragma once

#include <string>
#include <vector>

#include "kairos/habits/decisions.hpp"
#include "kairos/report/player.hpp"

#include "ledger_library.hpp"

namespace kairos::cli {

// What players are measured by: what is to be expected, the opponents in the same games, or all
// players of another ledger, whose name it then is.
inline constexpr const char* by_expectation = "expected";
inline constexpr const char* opponents_field = "field";

// What the pages of one run share. The libraries must outlive it.
struct PageSources {
  const LedgerLibrary& own;
  const LedgerLibrary& others;  // the field's, where it is another ledger's
  habits::DecisionRule rule{};
  std::string against = by_expectation;
  bool for_opponent = false;  // as PlayerPage
};

// Of the player with these names (as in the tags). `files`: they are written beside the page, which
// then names them.
report::PlayerPage make_page(const PageSources& sources, const std::vector<std::string>& names,
                             bool files);

// "Birch, Jon: 24 games, 2 habits, 31 puzzles to train with"; for an opponent "31 puzzles".
std::string summary_of(const report::PlayerPage& page);

}  // namespace kairos::cli
