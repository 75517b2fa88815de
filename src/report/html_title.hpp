// The head of report.html: which event, when, who played.
#pragma once

#include <string>

#include "kairos/study/study.hpp"

#include "players.hpp"

namespace kairos::report {

// What the games have in common; a few texts, however many games there are.
class Title {
 public:
  void add(const study::Study& study);
  // An <h1> and paragraphs: the event (of one game the players), the days, the counts, the players.
  [[nodiscard]] std::string html(const PlayerCount& players) const;

 private:
  [[nodiscard]] std::string heading() const;

  std::uint64_t games_ = 0, points_ = 0;
  study::GameFacts first_;  // of the first game
  bool one_event_ = true;
  std::string from_, to_;  // days, where they are known in full
};

}  // namespace kairos::report
