// Habits: in which circumstances a player errs more, or less, than others do. Plain data.
//
// A decision is a move with a choice in a position that was not decided; an error is one that cost
// at least DecisionRule::error_cost of expectation by the survey, which looks at both sides alike.
// All rates are errors per decision.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "kairos/base/interval.hpp"
#include "kairos/rules/position.hpp"
#include "kairos/study/study.hpp"

namespace kairos::habits {

// The least loss of expectation that is an error, unless the user asks otherwise.
inline constexpr double usual_error_cost = study::error_cost;

struct Rate {
  std::uint64_t errors = 0;
  std::uint64_t decisions = 0;

  [[nodiscard]] double share() const {
    return decisions == 0 ? 0 : static_cast<double>(errors) / static_cast<double>(decisions);
  }
  [[nodiscard]] base::Interval interval() const { return base::wilson_interval(errors, decisions); }
  friend bool operator==(const Rate&, const Rate&) = default;
};

// Where an error was made: the study as its owner numbers it, the half-moves before.
struct DecisionPlace {
  std::uint32_t game = 0;
  int ply = 0;

  friend auto operator<=>(const DecisionPlace&, const DecisionPlace&) = default;
};

// An error to show. The position is the one before the move.
struct Example {
  DecisionPlace place;
  double cost = 0;
  bool verified = false;
  rules::Position position = rules::Position::start();
  rules::Move played{}, best{};
  std::string game_label{};  // "Aronov - Bellini, Club Open 2026, round 3"
};

// From the first to the last of these years.
struct Years {
  int first = 0, last = 0;
  Rate rate;
};

struct Habit {
  std::string words;  // "in rook endings", "by overlooking a threat that was already there"
  // Whether it is a kind of error ("by ..."); else a circumstance.
  bool is_flaw = false;
  Rate player, field;  // `field`: where that is what the player is measured by
  // Where what is to be expected is: so many errors, at the player's own level in all decisions
  // together, and what resampling by game says of the multiple, where there are games enough.
  double expected = 0;
  std::optional<base::Interval> multiple{};
  double times = 1;     // as many errors, with small numbers shrunk toward 1: for ranking
  double adjusted = 1;  // p-value, adjusted for the number of circumstances tried
  std::vector<Example> examples{};     // of a habit: the clearest three, of different games
  std::vector<std::string> puzzles{};  // names of puzzles from such decisions, best first
  std::vector<Years> years{};          // the player's rate, where dates allow
  std::uint64_t more_games = 0;        // not sure yet: about so many more would tell
};

// All errors against what was to be expected of players of the same rating in the same positions,
// by chance_of_error (chances.hpp), with 95 % intervals by game.
struct Expectation {
  double errors = 0;        // to be expected
  int rating = 0;           // of the player, the mean of the decisions
  bool unrated = false;     // somewhere no rating is given: there it is that of study::rating_of
  double ratio = 1;         // errors for each that was to be expected
  base::Interval interval;  // of it
  // The rating of those of whom as many errors are to be expected: an estimate from moves, after
  // Regan and Haworth (2011). Its ends, and itself, are at least `chance_ratings.front()` and at
  // most `.back()`, and there mean "or less", "or more".
  int estimate = 0, low = 0, high = 0;
};

// What a player is measured by: what is to be expected of players of the rating, or the field.
enum class Measure : std::uint8_t { expectation, field };

struct Habits {
  std::string player;  // the name's spellings, " / " between
  Measure measure = Measure::field;
  std::optional<Expectation> expectation{};  // none where the games are too few
  std::string field;  // "the opponents in the same games", "the players of league.pgn"
  std::uint64_t games = 0;
  double error_cost = usual_error_cost;  // what an error cost at least, of expectation
  std::uint64_t circumstances = 0;       // tried
  Rate player_rate, field_rate;          // of all decisions
  std::vector<Habit> habits, strengths, unsure;
  std::uint64_t games_for_double = 0;  // with so many, a doubled rate of one decision in ten shows
};

}  // namespace kairos::habits
