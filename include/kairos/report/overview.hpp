// players.html and players.txt: several players of the same ledgers, a row each in the order given,
// with what their pages (player.hpp) say in figures, and the way to each page.
//
// Errors stand beside those that were to be expected, or beside the field's rate, as the habits
// were measured. Text is 80 columns, UTF-8. The same overview gives the same bytes; faults are
// those of the sink.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/bytes.hpp"
#include "kairos/report/player.hpp"

namespace kairos::report {

struct OverviewRow {
  std::string name;    // fit to be shown
  std::string folder;  // beside the overview, with the player's page in it; empty: there is none
  std::uint64_t games = 0;
  habits::Habits habits{};
};
OverviewRow overview_row(const PlayerPage& page, std::string folder);

struct Overview {
  std::vector<OverviewRow> rows{};
  std::vector<std::string> left_out{};  // names that were asked for and mean nobody or several
  std::vector<std::string> efforts{};   // as in PlayerPage
  std::string version{};                // of kairos
};

base::Status write_overview_html(const Overview& overview, base::ByteSink& sink);
base::Status write_overview_text(const Overview& overview, base::ByteSink& sink);
// Whether a text is an overview, of whichever players.
bool is_overview_text(std::string_view text);

}  // namespace kairos::report
