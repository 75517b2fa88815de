// kairos rates: how exactly each player of the studied games plays, from ledgers alone.
#include "kairos/report/rates.hpp"

#include <CLI/CLI.hpp>
#include <memory>

#include "kairos/habits/rate_count.hpp"

#include "command.hpp"
#include "ledger_library.hpp"
#include "numbers.hpp"
#include "output.hpp"

namespace kairos::cli {

namespace {

struct Arguments {
  std::vector<std::string> ledgers;
  habits::RateRule rule;
  std::uint64_t least_games = 1;
  bool json = false;
};

ExitCode run_rates(const Arguments& arguments) {
  LedgerLibrary library;
  for (const std::string& path : arguments.ledgers) {
    if (auto read = library.read(path, library); !read) return failed(read.faults());
  }
  habits::RateCount count(arguments.rule);
  for (const LedgerCollection& ledger : library.collections()) {
    for (std::size_t i = 0; i < ledger.size(); ++i) count.add(ledger.load(i));
  }
  const auto players = count.listed(arguments.least_games);
  if (arguments.json) {
    Output::get().line(report::rates_json(players));
  } else {
    Output::get().text(report::rates_text(players, arguments.rule));
  }
  return exit_done;
}

}  // namespace

Command register_rates(CLI::App& program) {
  CLI::App& command = add_command(
      program, {.name = "rates",
                .purpose = "How exactly each player plays: mean loss, blunders and errors",
                .examples = "  kairos rates spring autumn --least-games 5\n"});
  auto arguments = std::make_shared<Arguments>();
  command.add_option("LEDGERS", arguments->ledgers, "Ledgers of scans, or their folders")
      ->required();
  add_number(command, "--least-games", arguments->least_games, "Leave out players of fewer games",
             {.least = 1, .most = 1e9})
      ->type_name("N")
      ->default_str(plain_digits(static_cast<double>(arguments->least_games)));
  add_number(command, "--from-move", arguments->rule.first_move, "First move of a game that counts",
             {.least = 1, .most = 1000})
      ->type_name("N")
      ->default_str(plain_digits(arguments->rule.first_move));
  command.add_flag("--json", arguments->json, "Print one JSON object");
  return {&command, [arguments] { return run_rates(*arguments); }};
}

}  // namespace kairos::cli
