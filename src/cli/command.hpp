// What a command is: options declared under the program, and a function that runs it.
//
// Each command file has `register_<command>`, which declares the options once (name, unit, default,
// help) into raw values and returns the Command; and `run_<command>`, which turns the raw values
// into checked settings by a pure function and does the work. Its line stands in main.cpp.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "kairos/base/result.hpp"

#include "exit_codes.hpp"

namespace CLI {
class App;
}

namespace kairos::cli {

struct Command {
  CLI::App* app = nullptr;
  std::function<ExitCode()> run;
};

struct CommandHelp {
  const char* name;
  const char* purpose;   // one line
  const char* examples;  // lines that begin with "  kairos "
  bool studies = false;  // looks into positions with the search: the fair-play line is shown
};

// A sub-command with its help text, exit codes, and the options that all commands share.
CLI::App& add_command(CLI::App& program, const CommandHelp& help);

// Sets up the text of `kairos --help` and `--version`.
void describe_program(CLI::App& program);

// Reads the command line; an exit code when there is nothing to run (help, or a mistake that has
// been told on standard error).
std::optional<ExitCode> parse(CLI::App& program, int argc, char** argv);

// Tells the faults, at least one, and gives the exit code of a command that they end.
ExitCode failed(const base::Faults& faults);

// Runs `work`, flushes standard output, and ends quietly when its reader has gone.
ExitCode guarded(const std::function<ExitCode()>& work);

Command register_scan(CLI::App& program);
Command register_check(CLI::App& program);
Command register_join(CLI::App& program);
Command register_habits(CLI::App& program);
Command register_rates(CLI::App& program);
Command register_weigh(CLI::App& program);
Command register_draw(CLI::App& program);
Command register_tally(CLI::App& program);
Command register_quiz(CLI::App& program);
Command register_solve(CLI::App& program);
Command register_perft(CLI::App& program);

}  // namespace kairos::cli
