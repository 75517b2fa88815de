// From decisions to habits: counts, tests, and what may be said.
//
// Against what is to be expected a player is his own measure: circumstances in which more goes
// wrong than his errors in all decisions together and the chances of these positions say. How he
// does in all is another matter (Habits::expectation). Circumstances of the clock, of which the
// chances know nothing, and motifs are left to the field.
//
// Every topic that comes up often enough is compared with the field by the exact test, or with what
// is to be expected of the player at his own level (chances.hpp) by the exact test of unequal
// chances, where games that scatter more than chance weaken what the test says; since many
// are tried, the false discovery rate is held at q (statistics.hpp). What passes is ranked by how
// many times the field's rate the player's is, small numbers shrunk toward the field's. Topics
// overlap (rook endings, endings, moves 41 to 60): one that does not pass again without the
// decisions of those named before is left out, and so is one in which the player is no worse (for
// strengths: no better) than in all decisions together.
#pragma once

#include <span>
#include <vector>

#include "kairos/habits/decisions.hpp"
#include "kairos/habits/habit.hpp"

namespace kairos::habits {

struct FindOptions {
  double q = 0.10;
  std::size_t most = 5;                 // of each list
  std::uint64_t least_decisions = 150;  // of a topic, on each side: fewer tell nothing
  std::uint64_t least_errors = 5;       // both sides together
};

// A habit and where its topic stands in Topics, to look up what else belongs to it.
struct FoundHabits {
  Habits habits;  // without names, labels and positions of examples
  std::vector<TopicId> habit_topics, strength_topics;  // in the order of habits and strengths
};

// `games`: how many of the player's. Decisions may come in any order; results do not depend on it.
FoundHabits find(std::span<const Decision> player, std::span<const Decision> field,
                 const Topics& topics, std::uint64_t games, const FindOptions& options = {});

// The same against what is to be expected; decisions without chances are left out.
struct ExpectOptions {
  double q = 0.10;
  std::size_t most = 5;                 // of each list
  std::uint64_t least_decisions = 100;  // of a topic
  double least_expected = 5;            // errors, of a topic
};
FoundHabits find_by_expectation(std::span<const Decision> player, const Topics& topics,
                                std::uint64_t games, const ExpectOptions& options = {});

}  // namespace kairos::habits
