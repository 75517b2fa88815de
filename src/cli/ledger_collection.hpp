// A ledger as the reports want to see it: the one place where `batch` and `report` meet.
//
// Games come in the order of the input, with the moments that their candidates have brought so far;
// file, line and number are those of this input. What the reports say depends on the records alone,
// so that threads, parts and resumes leave no trace. A record that cannot be read is OutputFailed
// (output.hpp). Memory holds the puzzles, of more than `most_kept` the best, and one game.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "kairos/batch/ledger.hpp"
#include "kairos/batch/run.hpp"
#include "kairos/habits/collect.hpp"
#include "kairos/report/writer.hpp"

namespace kairos::cli {

class LedgerCollection final : public report::Collection, public habits::Source {
 public:
  static constexpr std::size_t most_kept = 20'000;  // puzzles of a kilobyte or two

  // Puzzles by whether the player in the game found the key; why-nots were never asked.
  enum class Asked : std::uint8_t { any, missed, found };
  struct Options {
    batch::Focus focus;
    batch::Focus puzzles_from;  // whose games the puzzles are taken from
    Asked asked = Asked::any;
    std::size_t most_puzzles = 0;  // 0: all
    int level = 0;  // the puzzles are for players of this rating; 0: of the mean of the games
    bool bare_pgn = false;  // as in RunFacts
  };
  // The ledger and its input must outlive the collection.
  LedgerCollection(const batch::Ledger& ledger, const batch::Input& input, Options options);

  [[nodiscard]] const report::RunFacts& facts() const override { return facts_; }
  [[nodiscard]] std::size_t size() const override { return games_.size(); }
  [[nodiscard]] study::Study load(std::size_t index) const override;
  [[nodiscard]] pgn::Game game(std::size_t index) const override;
  [[nodiscard]] const std::vector<puzzle::Puzzle>& puzzles() const override { return puzzles_; }
  [[nodiscard]] const std::vector<puzzle::Puzzle>& why_nots() const override { return why_nots_; }

  [[nodiscard]] std::vector<PuzzlePlace> puzzle_places() const override;
  [[nodiscard]] std::uint64_t open_places(std::size_t index) const override;
  // All games of the input, and the one whose study has this number.
  [[nodiscard]] const batch::Input& input() const { return input_; }
  [[nodiscard]] const batch::InputGame& input_game(std::size_t index) const {
    return input_.games[games_[index]];
  }

  [[nodiscard]] const habits::Habits* habits() const override {
    return habits_ ? &*habits_ : nullptr;
  }
  void set_habits(habits::Habits habits) { habits_ = std::move(habits); }

  // How many moments of each kind there are.
  using Tally = std::array<std::uint64_t, study::kind_count>;
  [[nodiscard]] const Tally& moments() const { return moments_; }

 private:
  [[nodiscard]] std::vector<batch::Findings> findings_of(const batch::InputGame& game) const;
  [[nodiscard]] bool is_wanted(const batch::InputGame& game, const puzzle::Puzzle& puzzle) const;
  void count(const batch::InputGame& game);
  void add_ratings(const study::GameFacts& facts);
  void keep_best();
  void arrange();

  const batch::Ledger& ledger_;
  const batch::Input& input_;
  Options options_;
  std::vector<std::size_t> games_;  // indices into the input: those that were surveyed
  report::RunFacts facts_;
  std::vector<puzzle::Puzzle> puzzles_;  // until they are arranged why-nots too
  std::vector<puzzle::Puzzle> why_nots_;
  std::uint64_t puzzles_beyond_ = 0;      // not kept
  std::int64_t ratings_ = 0, rated_ = 0;  // their sum and number, of the players of the games
  std::optional<habits::Habits> habits_;
  Tally moments_{};
  std::map<puzzle::Drop, std::uint64_t> drops_;
};

// What the collector has found against that field (in words), or against what is to be expected
// where it is empty; with a warning where it has not taken all games.
habits::Habits find_habits(habits::Collector& collector, const std::vector<std::string>& names,
                           const std::string& field);
// The habits of the player whose names these are, against what is to be expected.
habits::Habits habits_in(const LedgerCollection& ledger, const std::vector<std::string>& names);

}  // namespace kairos::cli
