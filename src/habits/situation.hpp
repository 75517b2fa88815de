// What a rule looks at: one decision in its game. Internal to habits.
#pragma once

#include <string>
#include <vector>

#include "kairos/study/study.hpp"

namespace kairos::habits {

struct Situation {
  const study::Study& study;
  int ply = 0;
  rules::Position position = rules::Position::start();  // in which it was made
  bool castled = false;                                 // the player, earlier
  int starting_seconds = -1;                            // on the player's clock; -1: not known

  [[nodiscard]] const study::Note& note(int at) const {
    return study.notes[static_cast<std::size_t>(at)];
  }
  [[nodiscard]] rules::Move played() const { return study.moves[static_cast<std::size_t>(ply)]; }
  // Expectation of the player, of the best move and of the one played.
  [[nodiscard]] double best() const;
  [[nodiscard]] double after() const;
};

// The most on the clock of a side, which is what it began with; -1: not known (decisions.cpp).
int starting_seconds(const study::Study& study, rules::Color side);

// What is much time and what is little (contexts.cpp).
bool is_short_of_time(int left, int starting);
bool is_long_think(int spent, int starting);
bool is_quick(int spent, int starting);

// The second best move costs so much: only one is good.
inline constexpr double only_one_good = 0.10;

// An error of the opponent gave so much of the expectation.
inline constexpr double chance = 0.10;

using Words = std::vector<std::string>;

// The circumstances of a decision (contexts.cpp).
Words contexts_of(const Situation& situation);
// What the second best move costs, as far as it counts (calibration.hpp).
double gap_of(const Situation& situation);
// Whether a circumstance of that name goes by the clock.
bool is_of_the_clock(std::string_view circumstance);
// Whether the opponent's last move gave so much of the expectation.
bool was_given(const Situation& situation, double least);

// What was wrong with an error (flaws.cpp). `among`: the circumstance without which it cannot be,
// one of contexts_of; "" for none.
struct Flaw {
  std::string words, among;
};
std::vector<Flaw> flaws_of(const Situation& situation);

// Circumstances that flaws refer to.
inline constexpr std::string_view with_advantage = "with an advantage";
inline constexpr std::string_view without_advantage = "without an advantage";
inline constexpr std::string_view after_error = "after an error of the opponent";

}  // namespace kairos::habits
