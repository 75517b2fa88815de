// kairos habits: what keeps coming back in one player's studied games, from ledgers alone; or in
// those of several (players_run.hpp).
//
// Stages: ledgers read, the player's names, the folder's files, the page made (player_page.hpp) and
// written.
#include <CLI/CLI.hpp>
#include <memory>
#include <optional>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"

#include "command.hpp"
#include "letters_option.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "player_files.hpp"
#include "player_games.hpp"
#include "player_page.hpp"
#include "players_run.hpp"
#include "pupils.hpp"

namespace kairos::cli {

namespace {

struct Arguments {
  std::vector<std::string> ledgers;
  std::string player;
  std::string players;
  std::vector<std::string> also;
  std::string folder;
  std::string against = by_expectation;
  std::string training;
  double error_cost = habits::DecisionRule{}.error_cost;
  rules::Letters letters = rules::Letters::english;
  bool opponent = false;
  bool json = false;
};

base::Status write_training(const std::string& file, const std::vector<puzzle::Puzzle>& puzzles) {
  auto out = base::WholeFile::open(file);
  if (!out) return std::move(out).faults();
  if (auto written = write_puzzles(puzzles, *out); !written) return written;
  return out->commit();
}

void print(const Arguments& arguments, const report::PlayerPage& page) {
  Output& out = Output::get();
  if (arguments.json) return out.line(report::player_json(page));
  if (arguments.folder.empty()) {
    base::StringSink text;
    (void)report::write_player_text(page, text);  // such a sink takes everything
    return out.text(text.text);
  }
  out.line(summary_of(page));
  out.line("page in " + arguments.folder + ": " + base::join(PlayerFiles::file_names(), ", "));
}

base::Fault only_usual_cost() {
  return {
      base::Code::usage,
      "--error-cost goes with --against field, or with a ledger: what is to be expected is known "
      "of errors that cost " +
          plain_digits(habits::usual_error_cost),
      {}};
}

ExitCode run_player(const Arguments& arguments, const PageSources& sources) {
  const auto names = find_names(arguments.player, arguments.also, sources.own);
  if (!names) return failed(names.faults());
  std::optional<PlayerFiles> files;
  if (!arguments.folder.empty()) {
    auto opened = PlayerFiles::open(arguments.folder, *names);
    if (!opened) return failed(opened.faults());
    files.emplace(std::move(*opened));
  }
  const report::PlayerPage page = make_page(sources, *names, files.has_value());
  if (files) {
    if (auto written = files->write(page, arguments.letters); !written)
      return failed(written.faults());
  }
  if (!arguments.json) Output::get().set_letters(arguments.letters);
  print(arguments, page);
  if (arguments.training.empty()) return exit_done;
  const std::size_t named = page.training_of_habits;
  const auto end = page.training.begin() + static_cast<std::ptrdiff_t>(named);
  if (auto written = write_training(arguments.training, {page.training.begin(), end}); !written) {
    return failed(written.faults());
  }
  log_info(base::counted(named, "puzzle") + " in " + arguments.training);
  return exit_done;
}

ExitCode run_habits(const Arguments& arguments) {
  std::vector<Pupil> pupils;
  if (!arguments.players.empty()) {
    auto read = read_pupils(arguments.players);
    if (!read) return failed(read.faults());
    pupils = std::move(*read);
  }
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
  const PageSources sources{own, others, rule, arguments.against, arguments.opponent};
  if (arguments.players.empty()) return run_player(arguments, sources);
  return run_players(
      sources, pupils,
      {.folder = arguments.folder, .json = arguments.json, .letters = arguments.letters});
}

// Returns --players, for options that do not go with it.
CLI::Option* add_whose_options(CLI::App& command, Arguments& given) {
  auto* player =
      command.add_option("--player", given.player, "Whose habits; any usual way to write the name")
          ->type_name("NAME");
  auto* players =
      command
          .add_option("--players", given.players,
                      "Those of all players of this file, a name a line, other names of the same "
                      "player behind a semicolon each")
          ->type_name("FILE")
          ->excludes(player);
  command
      .add_option("--also", given.also,
                  "Another name that the player goes by; may be given several times")
      ->type_name("NAME")
      ->allow_extra_args(false)
      ->needs(player);
  command.callback([player, players] {
    if (player->count() + players->count() == 0) {
      throw CLI::RequiredError("--player or --players");
    }
  });
  return players;
}

}  // namespace

Command register_habits(CLI::App& program) {
  CLI::App& command = add_command(
      program,
      {.name = "habits",
       .purpose = "One player's games: what cost most, was found, saved; what keeps coming back",
       .examples = "  kairos habits spring --player \"Marrowby\"\n"
                   "  kairos habits spring autumn --player \"Marrowby\" -o marrowby\n"
                   "  kairos habits spring autumn --players pupils.txt -o pupils\n"
                   "  kairos habits spring autumn --player \"Birch, Jon\" --opponent\n"});
  auto arguments = std::make_shared<Arguments>();
  command.add_option("LEDGERS", arguments->ledgers, "Ledgers of scans, or their folders")
      ->required();
  CLI::Option* const players = add_whose_options(command, *arguments);
  command
      .add_option("-o,--out", arguments->folder,
                  "Write player.html, player.txt and training.epd into this folder; with "
                  "--players into a folder there for each player, and players.html and "
                  "players.txt, all in one table")
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
                  "Write the puzzles of the habits named to this EPD file; not with --players")
      ->type_name("FILE")
      ->excludes(players);
  command.add_flag("--opponent", arguments->opponent,
                   "Word it for somebody who prepares to play the player: before a game, not for "
                   "use during play (FIDE Laws, article 11.3)");
  add_letters_option(command, arguments->letters);
  command.add_flag("--json", arguments->json,
                   "Print one JSON object; with --players one a line for each player");
  return {&command, [arguments] { return run_habits(*arguments); }};
}

}  // namespace kairos::cli
