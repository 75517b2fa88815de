// What every report is written from, and what a writer is.
//
// A Collection is one run seen from its end: games with their studies, puzzles, what was skipped,
// what was done. Studies are loaded one at a time, so a report of any number of games needs the
// memory of one. A writer is a function from a Collection to one file's bytes; it starts no search,
// and gives the same bytes for the same Collection. The sink is the caller's; its faults are passed
// up.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "kairos/base/bytes.hpp"
#include "kairos/base/diagnostics.hpp"
#include "kairos/habits/habit.hpp"
#include "kairos/pgn/game.hpp"
#include "kairos/puzzle/puzzle.hpp"
#include "kairos/study/study.hpp"

namespace kairos::report {

struct RunFacts {
  std::string version;               // of kairos
  std::string settings;              // effort and options in words, for people
  std::uint64_t games_in_input = 0;  // read + skipped
  std::uint64_t games_skipped = 0;
  std::uint64_t nodes = 0;
  std::uint64_t candidates_open = 0;  // moments that were not verified before the deadline
  std::string player;  // when the report is of one player: the name's spellings, " / " between
  std::vector<base::Fault> faults;                                  // of the input, in its order
  std::vector<std::pair<std::string, std::uint64_t>> puzzle_drops;  // reason, how many
  std::uint64_t games_open = 0;  // read, but not studied before the deadline
  bool bare_pgn = false;         // annotated.pgn without words
  int level = study::unrated;    // rating of the players that the puzzles were chosen for
};

class Collection {
 public:
  virtual ~Collection() = default;
  [[nodiscard]] virtual const RunFacts& facts() const = 0;
  [[nodiscard]] virtual std::size_t size() const = 0;
  // The study number `index` (0-based), in the order of the input.
  [[nodiscard]] virtual study::Study load(std::size_t index) const = 0;
  // The game of that study as it was read, replayed: with its own notes and variations.
  [[nodiscard]] virtual pgn::Game game(std::size_t index) const = 0;
  // What keeps coming back with the player the report is about; nullptr when it is about nobody.
  [[nodiscard]] virtual const habits::Habits* habits() const { return nullptr; }
  // Arranged: best first. Of puzzles every position occurred in its game; why-nots follow moves
  // that were not played (puzzle.hpp).
  [[nodiscard]] virtual const std::vector<puzzle::Puzzle>& puzzles() const = 0;
  [[nodiscard]] virtual const std::vector<puzzle::Puzzle>& why_nots() const = 0;
};

struct Format {
  std::string_view name;       // as the user writes it
  std::string_view file_name;  // in the output folder
  base::Status (*write)(const Collection& collection, base::ByteSink& sink);
  bool for_people = false;  // moves may stand in other letters (letters.hpp); else programs read it
};

}  // namespace kairos::report
