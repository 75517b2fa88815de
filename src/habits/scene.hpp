// What a rule looks at: one decision in its game. Internal to habits.
#pragma once

#include <string>
#include <vector>

#include "kairos/study/study.hpp"

namespace kairos::habits {

struct Scene {
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

using Words = std::vector<std::string>;

// The circumstances of a decision (contexts.cpp).
Words contexts_of(const Scene& scene);
// What was wrong with an error (flaws.cpp).
Words flaws_of(const Scene& scene);

}  // namespace kairos::habits
