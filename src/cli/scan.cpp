// kairos scan: the main job. Games in; studies, moments, puzzles and every report out.
//
// Stages: options, inputs, ledger, intake, player, report files, run, reports, summary. The ledger
// in the output folder carries everything from one stage to the next, so that a run that was ended
// in any way goes on when the same command is given again.
#include <CLI/CLI.hpp>
#include <memory>
#include <optional>

#include "kairos/base/text.hpp"
#include "kairos/base/threads.hpp"
#include "kairos/batch/intake.hpp"
#include "kairos/batch/runner.hpp"
#include "kairos/report/words.hpp"
#include "kairos/search/evaluation.hpp"

#include "command.hpp"
#include "diagram_files.hpp"
#include "inputs.hpp"
#include "interrupt.hpp"
#include "letters_option.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "puzzle_choice.hpp"
#include "report_files.hpp"
#include "run_progress.hpp"
#include "summary.hpp"
#include "threads.hpp"

namespace kairos::cli {

namespace {

// As they stand on the command line.
struct Arguments {
  std::vector<std::string> games;
  std::string folder = "kairos-out";
  std::string player;
  std::string effort = "light";
  std::uint64_t survey_nodes = 0, verify_nodes = 0, puzzle_nodes = 0;  // 0: of the effort
  study::Settings thresholds;
  PuzzleChoice puzzles;
  bool bare_pgn = false;
  rules::Letters letters = rules::Letters::english;
  bool diagrams = false;
  int threads = 0;
  std::string part = "1/1";
  std::string until;
  double hours = 0;
  std::string log;
  bool strict = false;
  bool json = false;
};

// Checked: what they mean.
struct Plan {
  study::Settings settings;
  batch::Part part;
  std::optional<batch::Clock::Time> deadline;
};

study::Effort checked_effort(const Arguments& arguments) {
  study::Effort effort{};
  for (const auto name :
       {study::EffortName::light, study::EffortName::steady, study::EffortName::deep}) {
    if (study::to_string(name) == arguments.effort) effort = study::effort_of(name);
  }
  if (arguments.survey_nodes != 0) effort.survey_nodes = arguments.survey_nodes;
  if (arguments.verify_nodes != 0) effort.verify_nodes = arguments.verify_nodes;
  if (arguments.puzzle_nodes != 0) effort.puzzle_nodes = arguments.puzzle_nodes;
  return effort;
}

base::Result<Plan> checked(const Arguments& arguments, batch::Clock::Time now) {
  Plan plan;
  plan.settings = arguments.thresholds;
  plan.settings.effort = checked_effort(arguments);
  const auto part = batch::parse_part(arguments.part);
  if (!part) return part.faults();
  plan.part = *part;
  if (!arguments.until.empty()) {
    const auto time = batch::next_time_of_day(arguments.until, now);
    if (!time) return time.faults();
    plan.deadline = *time;
  } else if (arguments.hours > 0) {
    const auto time = batch::hours_later(arguments.hours, now);
    if (!time) return time.faults();
    plan.deadline = *time;
  }
  return plan;
}

base::Result<batch::Ledger> open_ledger(const std::string& folder, const Plan& plan) {
  auto ready = base::make_folder(folder);
  if (ready) ready = check_folder(folder);
  if (!ready) return std::move(ready).faults();
  base::FaultList damage;
  auto ledger = batch::Ledger::open(folder,
                                    {.version = KAIROS_VERSION,
                                     .evaluation = search::evaluation_checksum(),
                                     .definitions = study::definitions,
                                     .settings = study::to_text(plan.settings),
                                     .part = plan.part},
                                    damage);
  warn_of(damage.faults);
  return ledger;
}

// Reads all games into the ledger and makes sure that they belong there. Nobody asks it to stop: a
// signal ends the program, even while the input blocks.
base::Result<batch::Input> take_in(const std::vector<std::string>& files, const std::string& folder,
                                   batch::Ledger& ledger) {
  const std::atomic<bool> never{false};
  auto input = batch::take_in(files, ledger, never);
  if (!input) {
    (void)ledger.roll_back();
    return input;
  }
  if (ledger.input()) {
    if (auto same = batch::fits(*ledger.input(), *input, ledger.header().part, folder); !same) {
      (void)ledger.roll_back();
      return std::move(same).faults();
    }
  }
  if (auto put = ledger.put_input(*input); !put) return std::move(put).faults();
  return input;
}

void tell_start(const batch::Ledger& ledger, const batch::Input& input, const Plan& plan,
                int threads) {
  std::size_t known = 0;
  for (const batch::InputGame& game : input.games) known += ledger.has_survey(game.key) ? 1 : 0;
  log_info(base::counted(input.games.size(), "game") + " to study" +
           (plan.part.whole() ? "" : ", of which part " + batch::to_text(plan.part)) +
           (known == 0 ? "" : ", " + base::grouped(known) + " known from before") + "; effort " +
           report::settings_words(ledger.header().settings) + "; " +
           base::counted(static_cast<std::uint64_t>(threads), "thread"));
}

// Whether a file broke off before its end.
bool is_broken(const batch::Input& input) {
  for (const base::Fault& fault : input.faults) {
    using base::Code;
    if (fault.code == Code::gzip_damaged || fault.code == Code::gzip_truncated ||
        fault.code == Code::cannot_read || fault.code == Code::file_empty ||
        fault.code == Code::no_games) {
      return true;
    }
  }
  return false;
}

ExitCode exit_code_of(batch::Ending ending, const batch::Input& input, bool strict) {
  if (ending == batch::Ending::interrupted) return exit_interrupted;
  if (is_broken(input)) return exit_unreadable;
  return strict && !input.faults.empty() ? exit_not_held : exit_done;
}

void tell_ending(batch::Ending ending) {
  if (ending == batch::Ending::interrupted) {
    log_warning("interrupted; give the same command again to go on");
  } else if (ending == batch::Ending::out_of_time) {
    log_warning("the time is up; give the same command again to go on");
  }
}

ExitCode run_scan(const Arguments& arguments) {
  if (!arguments.log.empty()) {
    if (auto opened = log_to_file(arguments.log); !opened) return failed(opened.faults());
    log_record("kairos " KAIROS_VERSION ": scan of " + base::join(arguments.games, " ") + " into " +
               arguments.folder);
  }
  batch::SystemClock clock;
  const auto plan = checked(arguments, clock.now());
  if (!plan) return failed(plan.faults());
  Inputs inputs = find_inputs(arguments.games);
  if (!inputs.faults.empty()) return failed(inputs.faults);
  std::erase_if(inputs.files,
                [&](const std::string& file) { return is_own_report(arguments.folder, file); });

  auto ledger = open_ledger(arguments.folder, *plan);
  if (!ledger) return failed(ledger.faults());
  const auto input = take_in(inputs.files, arguments.folder, *ledger);
  if (!input) return failed(input.faults());
  warn_of(input->faults);
  if (input->repeats > 0) {
    log_warning(base::counted(input->repeats, "game") +
                " left out: the same as earlier ones, as the report lists");
  }
  const auto focus = find_focus(arguments.player, *input);
  if (!focus) return failed(focus.faults());
  auto options = collection_options(arguments.puzzles, *focus, *input);
  if (!options) return failed(options.faults());
  options->bare_pgn = arguments.bare_pgn;
  const std::atomic<bool>& stop = catch_interrupts();  // what is begun now is worth finishing
  auto files = ReportFiles::open(arguments.folder, arguments.diagrams, arguments.letters);
  if (!files) return failed(files.faults());

  const int threads = base::thread_count(arguments.threads, ~std::size_t{0});
  tell_start(*ledger, *input, *plan, threads);
  const batch::RunPlan run_plan{.settings = plan->settings,
                                .focus = *focus,
                                .threads = static_cast<unsigned>(threads),
                                .deadline = plan->deadline,
                                .stop = &stop};
  const auto ending = [&] {
    RunProgress progress;
    return batch::run(*ledger, *input, run_plan, clock, progress);
  }();
  if (!ending) return failed(ending.faults());

  LedgerCollection collection(*ledger, *input, std::move(*options));
  if (!focus->everybody()) collection.set_habits(habits_in(collection, focus->names));
  if (auto written = files->write(collection); !written) return failed(written.faults());
  if (!arguments.json) Output::get().set_letters(arguments.letters);
  print_summary(collection, arguments.folder, files->names(), arguments.json);
  tell_ending(*ending);
  return exit_code_of(*ending, *input, arguments.strict);
}

void add_effort_options(CLI::App& command, Arguments& arguments) {
  command
      .add_option("--effort", arguments.effort,
                  "How hard to look: light for an evening, steady for a night, deep for one game")
      ->type_name("NAME")
      ->check(CLI::IsMember({"light", "steady", "deep"}))
      ->capture_default_str();
  const auto add_nodes = [&](const char* name, std::uint64_t& nodes, const char* help) {
    add_number(command, name, nodes, help, {.least = 1, .most = most_nodes, .unit = "nodes"})
        ->type_name("NODES")
        ->default_str("by effort");
  };
  add_nodes("--survey-nodes", arguments.survey_nodes, "Searched in each position of each game");
  add_nodes("--verify-nodes", arguments.verify_nodes, "Searched again in each possible moment");
  add_nodes("--puzzle-nodes", arguments.puzzle_nodes, "Searched in each check of a puzzle");
}

void add_threshold_options(CLI::App& command, study::Settings& settings) {
  const auto add_share = [&](const char* name, double& share, const char* help) {
    add_number(command, name, share, help, {.least = 0, .most = 1})
        ->type_name("0..1")
        ->default_str(plain_digits(share));
  };
  add_share("--swing-cost", settings.swing_cost, "Least loss of expectation that is a swing");
  add_share("--only-move-least", settings.only_move_least,
            "Least expectation that an only move must keep");
  add_share("--only-move-gap", settings.only_move_gap,
            "Least distance between an only move and the next best");
  add_number(command, "--quiet-win-gain", settings.quiet_win_gain,
             "Least material that a quiet win must win",
             {.least = 1, .most = 10'000, .unit = "centipawns"})
      ->type_name("CENTIPAWNS")
      ->default_str(plain_digits(settings.quiet_win_gain));
  add_share("--trap-cost", settings.trap_cost,
            "Least loss of expectation that a move avoided would have brought");
  add_share("--resigned-least", settings.resigned_least,
            "Least expectation at which resigning was too early");
  add_share("--agreed-least", settings.agreed_least,
            "Least expectation at which agreeing to a draw was too early");
  add_share("--claim-cost", settings.claim_cost,
            "Least loss of expectation that is a hole in the player's own analysis");
  add_share("--decided", settings.decided, "Beyond this expectation a game is decided: no moments");
  add_number(command, "--from-move", settings.from_move, "Tell nothing about earlier moves",
             {.least = 1, .most = 1'000})
      ->type_name("N")
      ->default_str(plain_digits(settings.from_move));
}

void add_run_options(CLI::App& command, Arguments& arguments) {
  add_threads_option(command, arguments.threads);
  command
      .add_option("--part", arguments.part,
                  "Study only part K of N; kairos join puts them together")
      ->type_name("K/N")
      ->capture_default_str();
  auto* until =
      command.add_option("--until", arguments.until, "Be done by this time of day, HH:MM")
          ->type_name("TIME");
  add_number(command, "--hours", arguments.hours, "Be done in so many hours",
             {.least = 0.000'001, .most = 24 * 366, .unit = "hours"})
      ->type_name("H")
      ->excludes(until);
  command
      .add_option("--log", arguments.log, "Write what happened, with the time, to this file too")
      ->type_name("FILE");
}

}  // namespace

Command register_scan(CLI::App& program) {
  CLI::App& command = add_command(
      program,
      {.name = "scan",
       .purpose = "Study games: moments, puzzles and every report",
       .examples = "  kairos scan samples/club_open.pgn -o out\n"
                   "  kairos scan round7.pgn.gz --player \"Marrowby, Silas\" --effort steady\n"
                   "  kairos scan season/ -o season-out --until 07:00\n",
       .studies = true});
  auto arguments = std::make_shared<Arguments>();
  command.add_option("GAMES", arguments->games, games_help)->required();
  command.add_option("-o,--out", arguments->folder, "Folder of the reports and the ledger")
      ->type_name("DIR")
      ->capture_default_str();
  command
      .add_option("--player", arguments->player,
                  "Only this player's games, moments and puzzles; any usual way to write the name")
      ->type_name("NAME");
  add_effort_options(command, *arguments);
  add_threshold_options(command, arguments->thresholds);
  add_puzzle_options(command, arguments->puzzles);
  add_bare_option(command, arguments->bare_pgn);
  add_diagrams_option(command, arguments->diagrams);
  add_letters_option(command, arguments->letters);
  add_run_options(command, *arguments);
  command.add_flag("--strict", arguments->strict,
                   "Exit with 1 when anything was wrong in the games");
  command.add_flag("--json", arguments->json, "Print the summary as one JSON object");
  return {&command, [arguments] { return run_scan(*arguments); }};
}

}  // namespace kairos::cli
