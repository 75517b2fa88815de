#include "summary.hpp"

#include <algorithm>
#include <unistd.h>

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/brief.hpp"
#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"

#include "log.hpp"
#include "output.hpp"
#include "terminal.hpp"

namespace kairos::cli {

namespace {

std::uint64_t total(const LedgerCollection::Tally& moments) {
  std::uint64_t sum = 0;
  for (const std::uint64_t number : moments) sum += number;
  return sum;
}

void print_json(const LedgerCollection& collection, const std::string& folder,
                const std::vector<std::string>& files) {
  const report::RunFacts& facts = collection.facts();
  base::Json kinds = base::Json::object(), names = base::Json::array();
  for (int kind = 0; kind < study::kind_count; ++kind) {
    kinds.add(report::words(static_cast<study::Kind>(kind)),
              collection.moments()[static_cast<std::size_t>(kind)]);
  }
  for (const std::string& file : files) names.push(file);
  base::Json object = base::Json::object();
  object.add("games", facts.games_in_input).add("skipped", facts.games_skipped);
  object.add("studied", collection.size()).add("games_open", facts.games_open);
  object.add("candidates_open", facts.candidates_open);
  object.add("moments", total(collection.moments())).add("kinds", std::move(kinds));
  object.add("puzzles", collection.puzzles().size())
      .add("whynots", collection.why_nots().size())
      .add("nodes", facts.nodes);
  object.add("folder", folder).add("files", std::move(names));
  Output::get().line(base::to_json(object));
}

// Nobody should have to open a file for one game.
void print_single_game(const LedgerCollection& collection) {
  const Looks looks = looks_of(STDOUT_FILENO);
  if (!looks.is_terminal || collection.size() != 1) return;
  Output::get().text(report::brief_text(collection, 0, std::min(looks.width, report::page_width)));
}

}  // namespace

void print_summary(const LedgerCollection& collection, const std::string& folder,
                   const std::vector<std::string>& files, bool json) {
  if (json) return print_json(collection, folder, files);
  const report::RunFacts& facts = collection.facts();
  print_single_game(collection);
  Output& out = Output::get();
  out.line(base::counted(facts.games_in_input, "game") + ": " +
           base::grouped(facts.games_in_input - facts.games_skipped) + " read, " +
           base::grouped(facts.games_skipped) + " skipped, " + base::grouped(collection.size()) +
           " studied");
  std::string line = base::counted(total(collection.moments()), "moment");
  std::string separator = ": ";
  for (int kind = 0; kind < study::kind_count; ++kind) {
    const std::uint64_t number = collection.moments()[static_cast<std::size_t>(kind)];
    if (number == 0) continue;
    line += separator + base::grouped(number) + " " +
            std::string(report::words(static_cast<study::Kind>(kind)));
    separator = ", ";
  }
  out.line(line);
  const std::size_t why_nots = collection.why_nots().size();
  out.line(base::counted(collection.puzzles().size(), "puzzle") +
           (why_nots == 0 ? "" : ", " + base::counted(why_nots, "why-not")));
  if (facts.games_open > 0)
    out.line("not done: " + base::counted(facts.games_open, "game") + " to study");
  if (facts.candidates_open > 0) {
    out.line("not done: " + base::counted(facts.candidates_open, "place") + " to verify");
  }
  out.line("reports in " + folder + ": " + base::join(files, ", "));
}

void warn_of(const std::vector<base::Fault>& faults) {
  constexpr std::size_t most = 20;
  for (std::size_t i = 0; i < faults.size() && i < most; ++i) log_warning(faults[i]);
  if (faults.size() <= most) return;
  const bool all = faults.back().code != base::Code::more_faults;
  log_warning("and " + base::grouped(faults.size() - most - (all ? 0 : 1)) +
              (all ? " more; the report has them all, and so has kairos check"
                   : " more, which the report has"));
  if (!all) log_warning(faults.back());
}

}  // namespace kairos::cli
