#include "kairos/puzzle/rates.hpp"

#include <algorithm>

#include "kairos/study/crowd.hpp"

namespace kairos::puzzle {

namespace {

// The least find rates of the first four grades.
constexpr std::array grade_bounds = {0.70, 0.50, 0.30, 0.15};
constexpr int least_told = 1;  // players: nobody would be "not known"

}  // namespace

Rates rates_of(const study::Crowd& crowd, rules::Move move) {
  Rates rates{};
  for (std::size_t i = 0; i < rates.size(); ++i) {
    rates[i] = std::max(crowd.players_of(move, told_ratings[i]), least_told);
  }
  return rates;
}

Rates both_of(const Rates& first, const Rates& then) {
  Rates both{};
  for (std::size_t i = 0; i < both.size(); ++i) {
    both[i] = std::max(first[i] * then[i] / study::find_rate_of, least_told);
  }
  return both;
}

double rate_at(const Rates& rates, int rating) {
  const auto share = [&rates](std::size_t i) {
    return static_cast<double>(rates[i]) / study::find_rate_of;
  };
  const auto above = std::ranges::upper_bound(told_ratings, rating);
  if (above == told_ratings.begin()) return share(0);
  if (above == told_ratings.end()) return share(rates.size() - 1);
  const auto upper = static_cast<std::size_t>(above - told_ratings.begin());
  const double way = static_cast<double>(rating - told_ratings[upper - 1]) /
                     (told_ratings[upper] - told_ratings[upper - 1]);
  return share(upper - 1) + way * (share(upper) - share(upper - 1));
}

int nearest_told(int rating) {
  return std::clamp(rating, told_ratings.front(), told_ratings.back());
}

bool are_known(const Rates& rates) {
  return rates != Rates{};
}

bool fits_level(const Rates& solve_rates, int level) {
  const double rate = rate_at(solve_rates, level);
  return rate >= fitting_least && rate <= fitting_most;
}

int difficulty_of(const Rates& solve_rates) {
  const double rate = rate_at(solve_rates, study::unrated);
  const auto grade =
      std::ranges::find_if(grade_bounds, [rate](double least) { return rate >= least; });
  return static_cast<int>(grade - grade_bounds.begin()) + 1;
}

}  // namespace kairos::puzzle
