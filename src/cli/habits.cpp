// kairos habits: what keeps coming back in one player's studied games, from ledgers alone.
//
// Stages: ledgers read, the player's names, the folder's files, the games (each once), habits and
// season, puzzles, the page.
#include "kairos/report/player.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <optional>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/habits/look_back.hpp"

#include "command.hpp"
#include "letters_option.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "player_files.hpp"
#include "player_games.hpp"

namespace kairos::cli {

namespace {

constexpr const char* by_expectation = "expected";
constexpr const char* opponents_field = "field";

struct Arguments {
  std::vector<std::string> ledgers;
  std::string player;
  std::vector<std::string> also;
  std::string folder;
  std::string against = by_expectation;
  std::string training;
  double error_cost = habits::DecisionRule{}.error_cost;
  rules::Letters letters = rules::Letters::english;
  bool json = false;
};

base::Status write_training(const std::string& file, const std::vector<puzzle::Puzzle>& puzzles) {
  auto out = base::WholeFile::open(file);
  if (!out) return std::move(out).faults();
  if (auto written = write_puzzles(puzzles, *out); !written) return written;
  return out->commit();
}

// The puzzles of the habits that were named.
std::vector<puzzle::Puzzle> of_habits(const habits::Collector& collector, const PlayerGames& games,
                                      const LedgerLibrary& others) {
  std::vector<puzzle::Puzzle> puzzles;
  for (const auto& [source, index] : collector.training()) {
    puzzles.push_back(source == 0 ? games.puzzles()[index]
                                  : others.collections()[source - 1].puzzles()[index]);
  }
  return puzzles;
}

// The puzzles of habits, then what the player missed, then the rest of the games; each position
// once.
void set_training(report::PlayerPage& page, std::vector<puzzle::Puzzle> of_habits,
                  const PlayerGames& games) {
  page.training = std::move(of_habits);
  page.training_of_habits = page.training.size();
  for (const bool missed : {true, false}) {
    for (const puzzle::Puzzle& puzzle : games.puzzles()) {
      if (games.is_missed(puzzle) != missed) continue;
      const auto same =
          std::ranges::find(page.training, puzzle.position, &puzzle::Puzzle::position);
      if (same != page.training.end()) continue;
      page.training.push_back(puzzle);
      if (missed) ++page.training_missed;
    }
  }
}

// How the ledgers were studied, each way once.
std::vector<std::string> efforts_of(const LedgerLibrary& library) {
  std::vector<std::string> efforts;
  for (const LedgerCollection& ledger : library.collections()) {
    const std::string& effort = ledger.facts().settings;
    if (std::ranges::find(efforts, effort) == efforts.end()) efforts.push_back(effort);
  }
  return efforts;
}

void print(const Arguments& arguments, const report::PlayerPage& page) {
  Output& out = Output::get();
  if (arguments.json) return out.line(report::player_json(page));
  if (arguments.folder.empty()) {
    base::StringSink text;
    (void)report::write_player_text(page, text);  // such a sink takes everything
    return out.text(text.text);
  }
  out.line(base::join(page.names, " / ") + ": " + base::counted(page.season.games, "game") + ", " +
           base::counted(page.habits.habits.size(), "habit") + ", " +
           base::counted(page.training.size(), "puzzle") + " to train with");
  out.line("page in " + arguments.folder + ": " + base::join(PlayerFiles::file_names(), ", "));
}

// Of the field that the player is compared with; "" where it is none.
std::string field_words(const std::string& against) {
  if (against == by_expectation) return "";
  return against == opponents_field ? std::string(habits::opponents_words)
                                    : "the players of " + against;
}

base::Fault only_usual_cost() {
  return {
      base::Code::usage,
      "--error-cost goes with --against field, or with a ledger: what is to be expected is known "
      "of errors that cost " +
          plain_digits(habits::usual_error_cost),
      {}};
}

ExitCode run_habits(const Arguments& arguments) {
  LedgerLibrary own, others;
  for (const std::string& path : arguments.ledgers) {
    if (auto read = own.read(path, own); !read) return failed(read.faults());
  }
  const habits::DecisionRule rule{.error_cost = arguments.error_cost};
  const bool opponents = arguments.against == opponents_field;
  const bool expected = arguments.against == by_expectation;
  if (expected && !rule.has_chances()) return failed({only_usual_cost()});
  if (!opponents && !expected) {
    if (auto read = others.read(arguments.against, own); !read) return failed(read.faults());
  }
  const auto names = find_names(arguments.player, arguments.also, own);
  if (!names) return failed(names.faults());
  std::optional<PlayerFiles> files;
  if (!arguments.folder.empty()) {
    auto opened = PlayerFiles::open(arguments.folder, *names);
    if (!opened) return failed(opened.faults());
    files.emplace(std::move(*opened));
  }

  const PlayerGames games(own, *names);
  habits::Collector collector(rule);
  collector.add(games, *names, opponents);
  for (const LedgerCollection& ledger : others.collections()) collector.add_field(ledger);
  report::PlayerPage page{.names = *names, .version = KAIROS_VERSION};
  page.habits = find_habits(collector, *names, field_words(arguments.against));
  page.season = habits::look_back(games, *names, rule);
  page.season.open_games = games.open_games();
  const std::vector<puzzle::Puzzle> training = of_habits(collector, games, others);
  set_training(page, training, games);
  page.efforts = efforts_of(own);
  if (files) page.training_file = training_file;
  if (files) {
    if (auto written = files->write(page, arguments.letters); !written)
      return failed(written.faults());
  }
  if (!arguments.json) Output::get().set_letters(arguments.letters);
  print(arguments, page);
  if (arguments.training.empty()) return exit_done;
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
       .purpose = "One player's games: what cost most, was found, saved; what keeps coming back",
       .examples = "  kairos habits spring --player \"Marrowby\"\n"
                   "  kairos habits spring autumn --player \"Marrowby\" -o marrowby\n"});
  auto arguments = std::make_shared<Arguments>();
  command.add_option("LEDGERS", arguments->ledgers, "Ledgers of scans, or their folders")
      ->required();
  command
      .add_option("--player", arguments->player, "Whose habits; any usual way to write the name")
      ->type_name("NAME")
      ->required();
  command
      .add_option("--also", arguments->also,
                  "Another name that the player goes by; may be given several times")
      ->type_name("NAME")
      ->allow_extra_args(false);
  command
      .add_option("-o,--out", arguments->folder,
                  "Write player.html, player.txt and training.epd into this folder")
      ->type_name("DIR");
  command
      .add_option(
          "--against", arguments->against,
          "Measure by: expected, what players of that rating do; field, the opponents in the "
          "same games; or all players of this ledger")
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
  add_letters_option(command, arguments->letters);
  command.add_flag("--json", arguments->json, "Print one JSON object");
  return {&command, [arguments] { return run_habits(*arguments); }};
}

}  // namespace kairos::cli
