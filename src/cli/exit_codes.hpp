// The exit codes of every command: the whole contract with shells and schedulers.
//
// They stand in each --help (command.cpp prints them) and have a test each
// (tests/cli/exit_codes_test.cpp).
#pragma once

namespace kairos::cli {

enum ExitCode : int {
  exit_done = 0,
  // Done, but a suite failed, --strict and something was wrong, no whole log, a player not found.
  exit_not_held = 1,
  exit_usage = 2,          // the command line makes no sense
  exit_unreadable = 3,     // an input cannot be read, or the output cannot be written
  exit_interrupted = 130,  // stopped from outside (as shells count SIGINT); the ledger is safe
};

inline constexpr const char* exit_code_words =
    "Exit codes:\n"
    "  0    done\n"
    "  1    done, but something did not hold (a failed suite, --strict and skipped games, a log\n"
    "       that could not be written, one of several players who was not found)\n"
    "  2    the command line makes no sense\n"
    "  3    an input cannot be read, or the output cannot be written\n"
    "  130  interrupted; what was finished is safe\n";

}  // namespace kairos::cli
