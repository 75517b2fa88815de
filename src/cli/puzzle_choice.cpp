#include "puzzle_choice.hpp"

#include <CLI/CLI.hpp>

#include "kairos/base/text.hpp"

#include "log.hpp"
#include "numbers.hpp"

namespace kairos::cli {

void add_puzzle_options(CLI::App& command, PuzzleChoice& choice) {
  add_number(command, "--puzzles", choice.most, "Keep so many puzzles, the best; 0 for all",
             {.least = 0, .most = 1'000'000, .unit = "puzzles"})
      ->type_name("N")
      ->default_str("0");
  add_number(command, "--level", choice.level, "Choose puzzles for players of this rating",
             {.least = least_level, .most = most_level})
      ->type_name("R")
      ->default_str("the mean of the games, else 2000");
  command.add_option("--from", choice.from, "Keep only puzzles from this player's games")
      ->type_name("NAME");
  auto* missed = command.add_flag("--missed", choice.missed,
                                  "Keep only puzzles whose key was not found in the game");
  command.add_flag("--found", choice.found, "Keep only puzzles whose key was found in the game")
      ->excludes(missed);
}

void add_bare_option(CLI::App& command, bool& bare_pgn) {
  command.add_flag("--bare-pgn", bare_pgn,
                   "Write the marks and lines into annotated.pgn, but no words");
}

base::Result<batch::Focus> find_focus(const std::string& player, const batch::Input& input) {
  if (player.empty()) return batch::Focus{};
  auto found = batch::find_player(player, batch::names_in(input));
  if (!found) return std::move(found).faults();
  log_info("player: " + base::join(*found, "; "));
  return batch::Focus{std::move(*found)};
}

base::Result<LedgerCollection::Options> collection_options(const PuzzleChoice& choice,
                                                           batch::Focus focus,
                                                           const batch::Input& input) {
  auto from = find_focus(choice.from, input);
  if (!from) return std::move(from).faults();
  using Asked = LedgerCollection::Asked;
  return LedgerCollection::Options{.focus = std::move(focus),
                                   .puzzles_from = std::move(*from),
                                   .asked = choice.missed  ? Asked::missed
                                            : choice.found ? Asked::found
                                                           : Asked::any,
                                   .most_puzzles = choice.most,
                                   .level = choice.level,
                                   .bare_pgn = false};
}

}  // namespace kairos::cli
