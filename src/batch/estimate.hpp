// How long the rest of a run will take, from how long its parts took.
//
// Seconds are thread-seconds. Before the first candidate is verified its cost is reckoned from the
// survey's speed and the efforts; how many candidates a game has, from the games surveyed.
#pragma once

#include <optional>

#include "kairos/batch/schedule.hpp"
#include "kairos/study/settings.hpp"

namespace kairos::batch {

class Estimate {
 public:
  Estimate(const study::Effort& effort, unsigned threads) : effort_(effort), threads_(threads) {}

  void add_survey(double seconds, std::size_t positions);
  void add_verify(double seconds, std::uint64_t candidates);

  // Seconds by the clock until all is done; nothing before anything was.
  [[nodiscard]] std::optional<double> seconds_left(const Schedule::Counts& counts) const;

 private:
  [[nodiscard]] double seconds_of_candidate() const;

  study::Effort effort_;
  unsigned threads_;
  double survey_seconds_ = 0;
  double positions_ = 0;
  double surveys_ = 0;
  double verify_seconds_ = 0;
  double verifies_ = 0;
};

}  // namespace kairos::batch
