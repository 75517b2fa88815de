// kairos perft: counts sequences of legal moves, or checks a file of known counts.
#include "kairos/rules/perft.hpp"

#include <CLI/CLI.hpp>
#include <memory>

#include "kairos/base/text.hpp"
#include "kairos/pgn/position_lines.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "command.hpp"
#include "given_position.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "progress_line.hpp"

namespace kairos::cli {

namespace {

struct Arguments {
  std::string epd;
  std::string fen{rules::start_fen};
  int depth = 0;
  int max_depth = rules::most_perft_depth;
  bool divide = false;
};

// Checks one line and says whether all its counts down to `max_depth` are right.
bool check_line(const rules::PerftLine& line, std::string_view text, int max_depth) {
  for (const rules::PerftLine::Count& expected : line.counts) {
    if (expected.depth > max_depth) continue;
    const std::uint64_t counted = rules::perft(line.position, expected.depth);
    if (counted == expected.nodes) continue;
    Output::get().line("failed: " + std::string(base::trim(base::split(text, ';')[0])) + " depth " +
                       base::number(expected.depth) + ": counted " + std::to_string(counted) +
                       ", expected " + std::to_string(expected.nodes));
    return false;
  }
  return true;
}

ExitCode check_file(const Arguments& arguments) {
  auto lines = pgn::PositionLines::open(arguments.epd, pgn::PositionLines::Use::one_by_one);
  if (!lines) {
    log_error(lines.fault());
    return exit_unreadable;
  }
  std::uint64_t passed = 0;
  std::uint64_t failed = 0;
  ProgressLine progress("lines");
  while (const auto line = lines->next()) {
    const auto read = lines->make(*line, rules::read_perft_line);
    if (!read) Output::get().line("failed: " + base::describe(read.fault()));
    ++(read && check_line(*read, line->text, arguments.max_depth) ? passed : failed);
    progress.update(line->number, 0);
  }
  if (lines->failure()) {
    log_error(*lines->failure());
    return exit_unreadable;
  }
  if (passed + failed == 0) {
    log_error(base::Fault{base::Code::file_empty, "", {.file = arguments.epd}});
    return exit_unreadable;
  }
  Output::get().line(std::to_string(passed) + " passed, " + std::to_string(failed) + " failed");
  return failed == 0 ? exit_done : exit_not_held;
}

ExitCode count_position(const Arguments& arguments) {
  const auto position = read_fen(arguments.fen);
  if (!position) return failed(position.faults());
  std::uint64_t total = 0;
  if (arguments.divide && arguments.depth > 0) {
    for (const auto& [move, nodes] : rules::divide(*position, arguments.depth)) {
      Output::get().line(rules::to_san(*position, move) + " " + std::to_string(nodes));
      total += nodes;
    }
  } else {
    total = rules::perft(*position, arguments.depth);
  }
  Output::get().line(std::to_string(total));
  return exit_done;
}

ExitCode run_perft(const Arguments& arguments) {
  return arguments.epd.empty() ? count_position(arguments) : check_file(arguments);
}

}  // namespace

Command register_perft(CLI::App& program) {
  CLI::App& command = add_command(
      program, {.name = "perft",
                .purpose = "Count sequences of legal moves, or check a file of known counts",
                .examples = "  kairos perft 5\n"
                            "  kairos perft --fen \"8/8/8/8/8/4k3/4p3/4K3 w - - 0 1\" 3 --divide\n"
                            "  kairos perft --epd tests/perft/standard.epd --max-depth 4\n"});
  auto arguments = std::make_shared<Arguments>();
  constexpr Numbers in_range{.least = 0, .most = rules::most_perft_depth, .unit = "plies"};
  auto* depth =
      add_number(command, "DEPTH", arguments->depth, "Length of the sequences, in plies", in_range);
  auto* fen = command.add_option("--fen", arguments->fen, "Position to count from")
                  ->type_name("FEN")
                  ->default_str("the start position");
  auto* divide = command.add_flag("--divide", arguments->divide, "Print the count of each move");
  auto* epd =
      command.add_option("--epd", arguments->epd, "Check a file of lines: FEN ;D1 n ;D2 n ...")
          ->type_name("FILE")
          ->excludes(depth)
          ->excludes(fen)
          ->excludes(divide);
  add_number(command, "--max-depth", arguments->max_depth, "With --epd: leave out deeper counts",
             in_range)
      ->type_name("N")
      ->needs(epd);
  command.callback([depth, epd] {
    if (depth->count() + epd->count() == 0) throw CLI::RequiredError("DEPTH or --epd");
  });
  return {&command, [arguments] { return run_perft(*arguments); }};
}

}  // namespace kairos::cli
