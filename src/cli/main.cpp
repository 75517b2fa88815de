// kairos: the table of contents. Each command lives in the file of its name.
#include <CLI/CLI.hpp>
#include <array>
#include <vector>

#include "command.hpp"
#include "standard_streams.hpp"

namespace {

using namespace kairos::cli;

// In the order of --help. A new command: its file, its declaration in command.hpp, its line here.
constexpr std::array register_functions = {
    register_scan, register_check, register_join, register_habits, register_rates, register_weigh,
    register_draw, register_tally, register_quiz, register_solve,  register_perft,
};

ExitCode run(int argc, char** argv) {
  CLI::App program;
  describe_program(program);
  std::vector<Command> commands;
  for (const auto register_command : register_functions) {
    commands.push_back(register_command(program));
  }
  if (const auto finished = parse(program, argc, argv)) return *finished;
  for (const Command& command : commands) {
    if (command.app->parsed()) return command.run();
  }
  return exit_usage;
}

}  // namespace

int main(int argc, char** argv) {
  if (!hold_standard_streams()) return exit_unreadable;
  return guarded([argc, argv] { return run(argc, argv); });
}
