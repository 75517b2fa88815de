// kairos join: the ledgers of a split run become one, and the reports are written from it, without
// any search.
#include "kairos/batch/join.hpp"

#include <CLI/CLI.hpp>
#include <memory>

#include "kairos/batch/schedule.hpp"

#include "command.hpp"
#include "diagram_files.hpp"
#include "letters_option.hpp"
#include "log.hpp"
#include "output.hpp"
#include "puzzle_choice.hpp"
#include "report_files.hpp"
#include "summary.hpp"

namespace kairos::cli {

namespace {

struct Arguments {
  std::vector<std::string> ledgers;
  std::string folder = "kairos-out";
  PuzzleChoice puzzles;
  bool bare_pgn = false;
  rules::Letters letters = rules::Letters::english;
  bool diagrams = false;
  bool json = false;
};

// Games and candidates that no part has studied.
bool is_unfinished(const batch::Ledger& ledger) {
  const batch::Focus everybody;
  const batch::Schedule::Counts counts =
      batch::Schedule(*ledger.input(), ledger, everybody).counts();
  return counts.surveyed < counts.games || counts.verified < counts.candidates;
}

ExitCode run_join(const Arguments& arguments) {
  if (auto free = check_folder(arguments.folder); !free) return failed(free.faults());
  base::FaultList found;
  const auto ledger = batch::join(arguments.ledgers, arguments.folder, found);
  warn_of(found.faults);
  if (!ledger) return failed(ledger.faults());
  auto files = ReportFiles::open(arguments.folder, arguments.diagrams, arguments.letters);
  if (!files) return failed(files.faults());
  auto options = collection_options(arguments.puzzles, {}, *ledger->input());
  if (!options) return failed(options.faults());
  options->bare_pgn = arguments.bare_pgn;
  const LedgerCollection collection(*ledger, *ledger->input(), std::move(*options));
  if (auto written = files->write(collection); !written) return failed(written.faults());
  if (!arguments.json) Output::get().set_letters(arguments.letters);
  print_summary(collection, arguments.folder, files->names(), arguments.json);
  if (!is_unfinished(*ledger)) return exit_done;
  log_warning("the run is not finished: join again when its parts are done");
  return exit_not_held;
}

}  // namespace

Command register_join(CLI::App& program) {
  CLI::App& command = add_command(
      program, {.name = "join",
                .purpose = "Put the ledgers of a split run together and write the reports",
                .examples = "  kairos join part1 part2 part3 -o out\n"});
  auto arguments = std::make_shared<Arguments>();
  command.add_option("LEDGERS", arguments->ledgers, "Ledgers of the parts, or their folders")
      ->required();
  command.add_option("-o,--out", arguments->folder, "Folder of the reports and the joined ledger")
      ->type_name("DIR")
      ->capture_default_str();
  add_puzzle_options(command, arguments->puzzles);
  add_bare_option(command, arguments->bare_pgn);
  add_diagrams_option(command, arguments->diagrams);
  add_letters_option(command, arguments->letters);
  command.add_flag("--json", arguments->json, "Print the summary as one JSON object");
  return {&command, [arguments] { return run_join(*arguments); }};
}

}  // namespace kairos::cli
