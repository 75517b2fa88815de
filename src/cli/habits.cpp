// kairos habits: what keeps coming back in one player's studied games, from ledgers alone.
#include "kairos/report/habits.hpp"

#include <CLI/CLI.hpp>
#include <memory>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/batch/players.hpp"
#include "kairos/report/formats.hpp"

#include "command.hpp"
#include "ledger_library.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"

namespace kairos::cli {

namespace {

struct Arguments {
  std::vector<std::string> ledgers;
  std::string player;
  std::string against = "field";
  std::string training;
  double error_cost = habits::DecisionRule{}.error_cost;
  bool json = false;
};

// Puzzles alone, for the writers.
class PuzzleSet final : public report::Collection {
 public:
  explicit PuzzleSet(const std::vector<puzzle::Puzzle>& puzzles) : puzzles_(puzzles) {}
  [[nodiscard]] const report::RunFacts& facts() const override { return facts_; }
  [[nodiscard]] std::size_t size() const override { return 0; }
  [[nodiscard]] study::Study load(std::size_t) const override { return {}; }
  [[nodiscard]] pgn::Game game(std::size_t) const override { return {}; }
  [[nodiscard]] const std::vector<puzzle::Puzzle>& puzzles() const override { return puzzles_; }
  [[nodiscard]] const std::vector<puzzle::Puzzle>& why_nots() const override { return why_nots_; }

 private:
  report::RunFacts facts_;
  const std::vector<puzzle::Puzzle>& puzzles_;
  std::vector<puzzle::Puzzle> why_nots_;
};

base::Status write_training(const std::string& file, const std::vector<puzzle::Puzzle>& puzzles) {
  auto out = base::WholeFile::open(file);
  if (!out) return std::move(out).faults();
  const PuzzleSet set(puzzles);
  for (const report::Format& format : report::formats()) {
    if (format.name != "epd") continue;
    if (auto written = format.write(set, *out); !written) return written;
  }
  return out->commit();
}

ExitCode run_habits(const Arguments& arguments) {
  LedgerLibrary own, others;
  for (const std::string& path : arguments.ledgers) {
    if (auto read = own.read(path, own); !read) return failed(read.faults());
  }
  const bool opponents = arguments.against == "field";
  if (!opponents) {
    if (auto read = others.read(arguments.against, own); !read) return failed(read.faults());
  }
  const auto names = batch::find_player(arguments.player, own.names());
  if (!names) return failed(names.faults());

  habits::Collector collector({.error_cost = arguments.error_cost});
  for (const LedgerCollection& ledger : own.collections()) collector.add(ledger, *names, opponents);
  for (const LedgerCollection& ledger : others.collections()) collector.add_field(ledger);
  const habits::Habits found = find_habits(
      collector, *names,
      opponents ? std::string(habits::opponents_words) : "the players of " + arguments.against);
  if (arguments.json) {
    Output::get().line(report::habits_json(found));
  } else {
    Output::get().text(report::habits_text(found));
  }
  if (arguments.training.empty()) return exit_done;
  std::vector<puzzle::Puzzle> training;
  for (const auto& [source, index] : collector.training()) {
    const std::size_t n = own.collections().size();
    const auto& ledger = source < n ? own.collections()[source] : others.collections()[source - n];
    training.push_back(ledger.puzzles()[index]);
  }
  if (auto written = write_training(arguments.training, training); !written) {
    return failed(written.faults());
  }
  log_info(base::counted(training.size(), "puzzle") + " in " + arguments.training);
  return exit_done;
}

}  // namespace

Command register_habits(CLI::App& program) {
  CLI::App& command = add_command(
      program,
      {.name = "habits",
       .purpose = "What keeps coming back in one player's games, against the field",
       .examples = "  kairos habits spring --player \"Marrowby\"\n"
                   "  kairos habits spring autumn --player \"Marrowby\" --training mine.epd\n"});
  auto arguments = std::make_shared<Arguments>();
  command.add_option("LEDGERS", arguments->ledgers, "Ledgers of scans, or their folders")
      ->required();
  command
      .add_option("--player", arguments->player, "Whose habits; any usual way to write the name")
      ->type_name("NAME")
      ->required();
  command
      .add_option("--against", arguments->against,
                  "Compare with all players of this ledger; field: the opponents in the same games")
      ->type_name("LEDGER")
      ->capture_default_str();
  add_number(command, "--error-cost", arguments->error_cost,
             "Least loss of expectation that is an error", {.least = 0.01, .most = 1})
      ->type_name("0..1")
      ->default_str(plain_digits(arguments->error_cost));
  command
      .add_option("--training", arguments->training,
                  "Write the puzzles of the habits named to this EPD file")
      ->type_name("FILE");
  command.add_flag("--json", arguments->json, "Print one JSON object");
  return {&command, [arguments] { return run_habits(*arguments); }};
}

}  // namespace kairos::cli
