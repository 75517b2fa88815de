#include "periods.hpp"

#include <algorithm>
#include <map>

#include "kairos/base/text.hpp"

namespace kairos::habits {

namespace {

constexpr int months_apart = 6;  // the same event after so many is held again

// Where only the year is known its middle.
int month_of(std::string_view date) {
  const auto year = base::to_integer(date.substr(0, 4));
  if (!year || *year < 1) return -1;
  const std::string_view rest = date.size() < 7 ? std::string_view{} : date.substr(5, 2);
  const auto month = base::to_integer(rest);
  const bool known = month && *month >= 1 && *month <= 12;
  return static_cast<int>(*year * 12 + (known ? *month - 1 : 6));
}

int half_of(int month) {
  return month < 0 ? 0 : month / 6;
}

bool is_named(std::string_view event) {
  return event.find_first_not_of("?.- ") != std::string_view::npos;
}

void add_to(Period& period, const Period& game) {
  period.games += game.games;
  period.with_result += game.with_result;
  period.half_points += game.half_points;
  period.swings += game.swings;
  period.games_with_swing += game.games_with_swing;
}

}  // namespace

void Periods::add(const study::GameFacts& facts, int half_points, std::uint64_t swings) {
  Game& game = games_.emplace_back();
  game.event = is_named(facts.event) ? facts.event : "";
  game.month = month_of(facts.date);
  game.counts.games = 1;
  game.counts.swings = swings;
  game.counts.games_with_swing = swings > 0 ? 1 : 0;
  if (half_points < 0) return;
  game.counts.with_result = 1;
  game.counts.half_points = static_cast<std::uint64_t>(half_points);
}

std::vector<Period> Periods::listed() const {
  std::vector<Period> periods = by_event();
  if (periods.empty()) periods = by_time();
  if (periods.size() < 2) periods.clear();
  return periods;
}

// Empty where events tell less than time does.
std::vector<Period> Periods::by_event() const {
  std::vector<const Game*> in_time;
  for (const Game& game : games_) {
    if (game.event.empty()) return {};
    in_time.push_back(&game);
  }
  const auto month_or_last = [](const Game* game) {
    return game->month < 0 ? 12 * 10'000 : game->month;
  };
  std::ranges::stable_sort(in_time, {}, month_or_last);
  struct Held {
    std::size_t period = 0;
    int month = 0;  // of its last game so far
  };
  std::map<std::string, Held> last_held;
  std::vector<Period> periods;
  for (const Game* const game : in_time) {
    const auto known = last_held.find(game->event);
    const bool again = known != last_held.end() && game->month >= 0 &&
                       game->month - known->second.month > months_apart;
    if (known == last_held.end() || again) {
      const int half = half_of(game->month);
      periods.push_back({.event = game->event, .first_half = half, .last_half = half});
      last_held[game->event] = {periods.size() - 1, game->month};
    }
    Held& held = last_held[game->event];
    held.month = game->month;
    Period& period = periods[held.period];
    if (game->month >= 0) period.last_half = half_of(game->month);
    add_to(period, game->counts);
  }
  const bool tell = periods.size() >= 2 && periods.size() <= most_periods &&
                    games_.size() >= least_games * periods.size();
  return tell ? periods : std::vector<Period>{};
}

std::vector<Period> Periods::by_time() const {
  int first = 0, last = 0;
  for (const Game& game : games_) {
    const int half = half_of(game.month);
    if (half == 0) continue;
    first = first == 0 ? half : std::min(first, half);
    last = std::max(last, half);
  }
  int span = 1;  // half-years in a period; beyond one whole years
  if (last - first + 1 > most_periods) {
    first -= first % 2;
    const int years = (last - first) / 2 + 1;
    span = 2 * ((years + most_periods - 1) / most_periods);
  }
  std::map<int, Period> periods;  // by their first half-year
  constexpr int no_date = 2 * 10'000;
  for (const Game& game : games_) {
    const int half = half_of(game.month);
    const int begin = half == 0 ? no_date : first + (half - first) / span * span;
    Period& period = periods[begin];
    if (half != 0) {
      period.first_half = begin;
      period.last_half = begin + span - 1;
    }
    add_to(period, game.counts);
  }
  std::vector<Period> listed;
  for (const auto& [begin, period] : periods) listed.push_back(period);
  return listed;
}

}  // namespace kairos::habits
