#include "kairos/habits/chances.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "kairos/habits/statistics.hpp"

#include "calibration.hpp"

namespace kairos::habits {

namespace {

constexpr double middle_rating = 2200, step_of_rating = 400;

// Between the ratings of the study in straight lines.
double by_model_at(const study::ErrorChances& chances, double rating) {
  const auto& ratings = study::chance_ratings;
  std::size_t upper = 1;
  while (upper + 1 < ratings.size() && rating > ratings[upper]) ++upper;
  const double below = ratings[upper - 1], part = (rating - below) / (ratings[upper] - below);
  return ((1 - part) * chances[upper - 1] + part * chances[upper]) / study::chance_of;
}

double within(double rating) {
  const auto& ratings = study::chance_ratings;
  return std::clamp<double>(rating, ratings.front(), ratings.back());
}

double chance_at(const Decision& d, double rating) {
  const double model = log_odds_by_model(d, rating);
  const double log_odds = log_odds_of_all() + (by_model() + by_model_squared() * model) * model +
                          by_rating() * place_of_rating(rating) + d.log_odds;
  return 1 / (1 + std::exp(-log_odds));
}

int rating_or_unrated(const Decision& d) {
  return d.rating > 0 ? d.rating : study::unrated;
}

// By game and ply, so that sums do not depend on the order in which they came.
std::vector<const Decision*> with_chances(std::span<const Decision> decisions) {
  std::vector<const Decision*> known;
  for (const Decision& d : decisions) {
    if (d.chances != study::no_chances) known.push_back(&d);
  }
  std::ranges::sort(known, {}, &Decision::place);
  return known;
}

// The rating of those who are to make so many errors in these decisions.
int rating_that_errs(const std::vector<const Decision*>& decisions, double errors) {
  double low = study::chance_ratings.front(), high = study::chance_ratings.back();
  for (int i = 0; i < 20; ++i) {
    const double middle = (low + high) / 2;
    double expected = 0;
    for (const Decision* d : decisions) expected += chance_at(*d, middle);
    (expected > errors ? low : high) = middle;
  }
  constexpr int unit = 10;
  return static_cast<int>(std::lround(low / unit)) * unit;
}

}  // namespace

double log_odds_by_model(const Decision& decision, double rating) {
  // From there on the model tells nothing apart.
  constexpr double least = 0.5 / study::chance_of, most = 0.97;
  const double p = std::clamp(by_model_at(decision.chances, within(rating)), least, most);
  return std::log(p / (1 - p));
}

double place_of_rating(double rating) {
  return (within(rating) - middle_rating) / step_of_rating;
}

double chance_of_error(const Decision& decision, int rating) {
  return chance_at(decision, rating);
}

double chance_of_error(const Decision& decision) {
  return chance_at(decision, rating_or_unrated(decision));
}

std::optional<Expectation> expectation_of(std::span<const Decision> decisions) {
  const std::vector<const Decision*> known = with_chances(decisions);
  std::map<std::uint32_t, GameSum> games;
  Expectation e;
  double ratings = 0;
  for (const Decision* d : known) {
    GameSum& game = games[d->place.game];
    const double chance = chance_of_error(*d);
    game.expected += chance;
    game.errors += d->error ? 1 : 0;
    e.errors += chance;
    e.unrated = e.unrated || d->rating == 0;
    ratings += rating_or_unrated(*d);
  }
  std::vector<GameSum> sums;
  for (const auto& [number, sum] : games) sums.push_back(sum);
  const std::optional<RatioByGame> ratio = ratio_by_game(sums);
  if (!ratio) return std::nullopt;
  e.rating = static_cast<int>(std::lround(ratings / static_cast<double>(known.size())));
  e.ratio = ratio->ratio;
  e.interval = ratio->interval;
  e.estimate = rating_that_errs(known, e.errors * e.ratio);
  e.low = rating_that_errs(known, e.errors * e.interval.high);
  e.high = rating_that_errs(known, e.errors * e.interval.low);
  return e;
}

}  // namespace kairos::habits
