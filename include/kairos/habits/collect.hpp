// From studies to one player's habits: collects decisions game by game, then fills in what people
// want to see, positions and puzzles.
//
// Games that stand in several sources count once. Memory holds a hundred bytes a decision: behind
// `most_decisions` of the player or of the field no more games are taken, for rates so well known
// do not move.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "kairos/habits/find.hpp"

namespace kairos::habits {

// Twelve thousand games of a player, or six thousand of a field.
inline constexpr std::size_t most_decisions = 500'000;

// Studies as their owner keeps them, one loaded at a time, and where their puzzles come from.
class Source {
 public:
  struct PuzzlePlace {
    std::uint64_t game = 0;  // its number, as in the study's facts
    int ply = 0;
    std::string id{};
    rules::Position position = rules::Position::start();
  };
  virtual ~Source() = default;
  [[nodiscard]] virtual std::size_t size() const = 0;
  [[nodiscard]] virtual study::Study load(std::size_t index) const = 0;
  [[nodiscard]] virtual std::vector<PuzzlePlace> puzzle_places() const = 0;  // best first
  // Places of that study where a moment may be and that were not verified.
  [[nodiscard]] virtual std::uint64_t open_places(std::size_t) const { return 0; }
};

// The side that one of these names plays (as in the tags); nothing where none does, or both.
std::optional<rules::Color> side_of(const study::GameFacts& facts,
                                    const std::vector<std::string>& names);

class Collector {
 public:
  explicit Collector(DecisionRule rule) : rule_(rule) {}

  // The player's decisions; the opponents' too, as the field, unless another field is given.
  // Sources must outlive the collector.
  void add(const Source& source, const std::vector<std::string>& names, bool opponents_are_field);
  void add_field(const Source& source);
  // Whether some games may not have been taken.
  [[nodiscard]] bool is_full() const;
  [[nodiscard]] std::uint64_t games() const { return games_; }  // of the player
  [[nodiscard]] std::size_t field_decisions() const { return field_.size(); }

  // `field`: in words. Puzzles are named by their ids.
  [[nodiscard]] Habits find(std::string player, std::string field);
  // Against what is to be expected; the rule must have chances.
  [[nodiscard]] Habits find_by_expectation(std::string player);
  // The puzzles of all habits that `find` named, each position once, best first: the source by the
  // order in which they were first added, and the puzzle's index there.
  struct PuzzleIndex {
    std::size_t source = 0;
    std::size_t puzzle = 0;
  };
  [[nodiscard]] const std::vector<PuzzleIndex>& training() const { return training_; }

 private:
  // Where a game stands.
  struct GameIndex {
    std::size_t source = 0;
    std::size_t game = 0;
    std::uint64_t number = 0;  // of the game in its run
  };
  Habits told(std::string player, std::string field, FoundHabits found);
  std::size_t number_of(const Source& source);
  std::uint32_t number_game(GameIndex index);
  bool is_new(const study::Study& study);
  void show_examples(std::vector<Habit>& habits) const;
  void add_puzzles(Habit& habit, TopicId topic);

  DecisionRule rule_;
  Topics topics_;
  std::vector<Decision> player_, field_;
  std::vector<const Source*> sources_;
  std::vector<GameIndex> indices_;  // by the number that decisions know a game by
  std::set<std::uint64_t> seen_;
  std::vector<PuzzleIndex> training_;
  std::vector<rules::Position> trained_;  // their positions
  std::uint64_t games_ = 0;
};

// The field where the opponents are it, in words.
inline constexpr std::string_view opponents_words = "the opponents in the same games";

}  // namespace kairos::habits
