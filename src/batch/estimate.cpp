#include "estimate.hpp"

#include <algorithm>

namespace kairos::batch {

namespace {

// What a candidate costs in units of the verify and the puzzle effort, before it is known.
constexpr double verify_units = 3.0;
constexpr double puzzle_units = 3.0;
// Candidates of a game before one is known.
constexpr double candidates_of_game = 12.0;
// So many verified candidates weigh as much as the reckoning from the survey.
constexpr double prior_weight = 4.0;

}  // namespace

void Estimate::add_survey(double seconds, std::size_t positions) {
  survey_seconds_ += seconds;
  positions_ += static_cast<double>(positions);
  ++surveys_;
}

void Estimate::add_verify(double seconds, std::uint64_t candidates) {
  verify_seconds_ += seconds;
  verifies_ += static_cast<double>(candidates);
}

double Estimate::seconds_of_candidate() const {
  if (positions_ == 0) return verify_seconds_ / verifies_;
  const double nodes_per_position =
      static_cast<double>(std::max<std::uint64_t>(effort_.survey_nodes, 1));
  const double seconds_per_node = survey_seconds_ / positions_ / nodes_per_position;
  const double reckoned =
      seconds_per_node * (static_cast<double>(effort_.verify_nodes) * verify_units +
                          static_cast<double>(effort_.puzzle_nodes) * puzzle_units);
  return (verify_seconds_ + reckoned * prior_weight) / (verifies_ + prior_weight);
}

std::optional<double> Estimate::seconds_left(const Schedule::Counts& counts) const {
  if (surveys_ + verifies_ == 0) return std::nullopt;
  const auto games_left = static_cast<double>(counts.games - counts.surveyed);
  const double per_game = counts.surveyed == 0 ? candidates_of_game
                                               : static_cast<double>(counts.candidates) /
                                                     static_cast<double>(counts.surveyed);
  const double candidates_left =
      static_cast<double>(counts.candidates - counts.verified) + games_left * per_game;
  const double per_survey = surveys_ == 0 ? 0 : survey_seconds_ / surveys_;
  return (games_left * per_survey + candidates_left * seconds_of_candidate()) / threads_;
}

}  // namespace kairos::batch
