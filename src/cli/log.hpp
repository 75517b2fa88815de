// The log: messages about the run, on standard error, never on standard output; in a file as well
// where one is asked for, there with the time, and with more than a person at work wants to see.
//
// spdlog behind a few functions. A message is one line, with whatever stands in it made visible
// (base/foreign.hpp), and begins with its level:
// "error: games.pgn:12:5: game 3: illegal move: Bf3 (compare with the score sheet)".
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "kairos/base/result.hpp"

namespace kairos::cli {

enum class LogLevel { quiet, normal, verbose };  // errors only; and what matters; and what was done

void set_log_level(LogLevel level);
bool log_is_quiet();

// From now on into this file too, behind what it holds. Fault: it cannot be opened.
base::Status log_to_file(const std::string& file);
// Why something is missing in that file, if it is.
std::optional<base::Fault> log_file_fault();

void log_record(std::string_view text);  // in the file only
void log_detail(std::string_view text);  // with --verbose only
void log_info(std::string_view text);
void log_warning(std::string_view text);
void log_error(std::string_view text);

void log_warning(const base::Fault& fault);
void log_error(const base::Fault& fault);
// Of files, the first fault that speaks of a whole one (or else the first), and how many more there
// are; of the command line, for instance of a FEN on it, all.
void log_error(const base::Faults& faults);

}  // namespace kairos::cli
