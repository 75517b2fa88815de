// What a move costs, as a look of some length has it, and how far its log odds are behind those of
// the best move: the odds still tell moves apart where the game is won or lost. Both are cut into
// pieces with a weight each. So a small cost may count for more than its size (whether a move is
// the best is soon said) or for less (a look is not sure of it), and yet more cost never counts for
// less.
#include <algorithm>

#include "exponential.hpp"
#include "terms.hpp"

namespace kairos::people {

namespace {

constexpr std::array cost_ends = {0.02, 0.06, 0.15, 0.35};
constexpr std::array log_odds_ends = {0.4, 1.2, 3.0};
static_assert(cost_ends.size() + 1 + log_odds_ends.size() + 1 == look_terms);
// Expectations are no surer than this: odds of 500 to 1.
constexpr double least_chance = 0.002;

double log_odds(double expectation) {
  const double e = std::clamp(expectation, least_chance, 1 - least_chance);
  return logarithm(e / (1 - e));
}

// Writes how much of `value` lies in each piece, in lengths of the piece; the last has no end, and
// the length of the one before it.
template <std::size_t count>
void add_pieces(double value, const std::array<double, count>& ends, double* at) {
  double begin = 0, length = 0;
  for (const double end : ends) {
    length = end - begin;
    *at++ = std::clamp(value - begin, 0.0, length) / length;
    begin = end;
  }
  *at = std::max(value - begin, 0.0) / length;
}

void add_look(std::span<const Judged> judged, double Judged::*look, std::size_t first,
              std::vector<Row>& rows) {
  double best = 0;
  for (const Judged& j : judged) best = std::max(best, j.*look);
  for (std::size_t i = 0; i < judged.size(); ++i) {
    const double e = judged[i].*look;
    add_pieces(best - e, cost_ends, &rows[i][first]);
    add_pieces(log_odds(best) - log_odds(e), log_odds_ends, &rows[i][first + cost_ends.size() + 1]);
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
