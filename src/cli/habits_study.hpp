// From ledgers to one player's habits: collects decisions game by game, then fills in what people
// want to see, positions and puzzles.
//
// Games that stand in several ledgers count once. Ledgers' collections must outlive the object.
// Memory holds a hundred bytes a decision: behind `most_decisions` of the player or of the field no
// more games are taken, for rates so well known do not move.
#pragma once

#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "kairos/batch/run.hpp"
#include "kairos/habits/find.hpp"

#include "ledger_collection.hpp"

namespace kairos::cli {

// Twelve thousand games of a player, or six thousand of a field.
inline constexpr std::size_t most_decisions = 500'000;

class HabitsStudy {
 public:
  explicit HabitsStudy(habits::Settings settings) : settings_(settings) {}

  // The player's decisions; the opponents' too, as the field, unless another field is given.
  void add(const LedgerCollection& ledger, const std::vector<std::string>& names,
           bool opponents_are_field);
  void add_field(const LedgerCollection& ledger);

  // `field`: in words. Puzzles are named by their ids.
  [[nodiscard]] habits::Habits find(std::string player, std::string field);
  // The puzzles of all habits that `find` named, each once, best first.
  [[nodiscard]] const std::vector<puzzle::Puzzle>& training() const { return training_; }

 private:
  struct Spot {
    const LedgerCollection* ledger = nullptr;
    std::size_t index = 0;
    std::uint64_t number = 0;  // of the game in its run
  };
  [[nodiscard]] bool is_full() const;
  bool is_new(const study::Study& study);
  void show_examples(std::vector<habits::Habit>& habits) const;
  void add_puzzles(habits::Habit& habit, habits::TopicId topic);

  habits::Settings settings_;
  habits::Topics topics_;
  std::vector<habits::Decision> player_, field_;
  std::vector<Spot> spots_;  // by the number that decisions know a game by
  std::set<std::uint64_t> seen_;
  std::vector<puzzle::Puzzle> training_;
  std::uint64_t games_ = 0;  // of the player
};

// The habits of the player whose names these are, against the opponents in the same games.
habits::Habits habits_in(const LedgerCollection& ledger, const std::vector<std::string>& names);
inline constexpr std::string_view opponents_words = "the opponents in the same games";

}  // namespace kairos::cli
