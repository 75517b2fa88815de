// One player's games in several ledgers, each once: a season as habits want to see it.
//
// A game stands here as in the first ledger that has studied it; games without a move were not
// played and are left out. Numbers of games, and so the ids of puzzles, are those of the ledger, in
// the second ledger counted on from those of the first and so on: no two games have the same.
// Memory holds the puzzles of these games.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "kairos/habits/collect.hpp"

#include "ledger_library.hpp"

namespace kairos::cli {

// The names in the ledgers (as in the tags) that the player is known by: those that `wanted` means
// and those that each of `also` means. Faults (usage): nobody or several are meant; or two of the
// names play each other and are two people.
base::Result<std::vector<std::string>> find_names(const std::string& wanted,
                                                  const std::vector<std::string>& also,
                                                  const LedgerLibrary& library);

class PlayerGames final : public habits::Source {
 public:
  // The library must outlive it.
  PlayerGames(const LedgerLibrary& library, std::vector<std::string> names);

  [[nodiscard]] std::size_t size() const override { return games_.size(); }
  [[nodiscard]] study::Study load(std::size_t index) const override;
  [[nodiscard]] std::vector<PuzzlePlace> puzzle_places() const override;
  [[nodiscard]] std::uint64_t open_places(std::size_t index) const override;

  [[nodiscard]] const std::vector<std::string>& names() const { return names_; }
  // The player's games that no ledger has studied yet.
  [[nodiscard]] std::uint64_t open_games() const { return open_games_; }
  // Best first for players of the player's rating.
  [[nodiscard]] const std::vector<puzzle::Puzzle>& puzzles() const { return puzzles_; }
  // Whether the player was to find the key of that puzzle and did not.
  [[nodiscard]] bool is_missed(const puzzle::Puzzle& puzzle) const;

 private:
  struct Game {
    const LedgerCollection* ledger = nullptr;
    std::size_t index = 0;     // in the ledger
    std::uint64_t offset = 0;  // of its number
    std::uint64_t number = 0;  // with the offset
    rules::Color side = rules::white;
  };
  void add(const LedgerCollection& ledger, std::uint64_t offset);
  void count_open(const LedgerLibrary& library);
  void arrange();

  std::vector<std::string> names_;
  std::vector<Game> games_;  // by number
  std::set<std::uint64_t> seen_;
  std::set<batch::GameKey> studied_;
  std::int64_t ratings_ = 0, rated_ = 0;  // of the player
  std::uint64_t open_games_ = 0;
  std::vector<puzzle::Puzzle> puzzles_;
};

}  // namespace kairos::cli
