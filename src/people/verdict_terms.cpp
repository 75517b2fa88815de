// What a move costs, as a look of some length has it. A cost counts by itself, by its first part
// (whether a move is the best or nearly so is soon said; how bad a bad one is matters little) and
// by the odds, which still tell moves apart where the game is won or lost.
#include <algorithm>

#include "exponential.hpp"
#include "terms.hpp"

namespace kairos::people {

namespace {

constexpr double first_part = 0.05;
// Expectations are no surer than this: odds of 500 to 1.
constexpr double least_chance = 0.002;
// Terms are scaled to the size of 1 by these.
constexpr double usual_cost = 0.25, usual_log_odds = 2;

double log_odds(double expectation) {
  const double e = std::clamp(expectation, least_chance, 1 - least_chance);
  return logarithm(e / (1 - e));
}

void add_look(std::span<const Judged> judged, double Judged::*look, std::size_t first,
              std::vector<Row>& rows) {
  double best = 0, second = 0;
  for (const Judged& j : judged) {
    second = std::max(second, std::min(best, j.*look));
    best = std::max(best, j.*look);
  }
  for (std::size_t i = 0; i < judged.size(); ++i) {
    const double e = judged[i].*look, cost = best - e;
    Row& row = rows[i];
    row[first] = cost / usual_cost;
    row[first + 1] = std::min(cost, first_part) / first_part;
    row[first + 2] = (log_odds(best) - log_odds(e)) / usual_log_odds;
    row[first + 3] = e >= best ? 1 : 0;
    row[first + 4] = e >= best ? (best - second) / usual_cost : 0;
  }
}

}  // namespace

void add_verdict_terms(std::span<const Judged> judged, std::vector<Row>& rows) {
  add_look(judged, &Judged::in_the_end, 0, rows);
  add_look(judged, &Judged::soon, look_terms, rows);
  add_look(judged, &Judged::at_a_glance, 2 * look_terms, rows);
}

std::vector<Row> rows_of(const rules::Position& position, const Before& before,
                         std::span<const Judged> judged) {
  std::vector<Row> rows(judged.size(), Row{});
  add_verdict_terms(judged, rows);
  add_board_terms(position, before, judged, rows);
  return rows;
}

}  // namespace kairos::people
