#include "cases.hpp"

#include <algorithm>

namespace kairos::people_tools {

bool is_held_out(const Sample& s) {
  if (s.file.starts_with("Gibraltar2019")) return s.round == 8 || s.round == 10;
  return s.file == "Biel2008.pgn" || s.file == "Sochi2008.pgn" || s.file == "Dortmund2014.pgn";
}

namespace {

void add(const Sample& s, Cases& cases) {
  Case c;
  c.first = cases.costs.size();
  c.moves = s.judged.size();
  c.rating = s.rating;
  c.held_out = is_held_out(s);
  double best = -1, second = -1;
  c.played = c.moves;
  for (std::size_t i = 0; i < c.moves; ++i) {
    const double e = s.judged[i].in_the_end;
    if (s.judged[i].move == s.played) c.played = i;
    second = std::max(second, std::min(best, e));
    if (e > best) c.best = i;
    best = std::max(best, e);
  }
  if (c.played == c.moves) return;  // cannot be
  c.best_expectation = best;
  c.lead = best - second;
  for (const people::Judged& j : s.judged) cases.costs.push_back(best - j.in_the_end);
  for (const people::Row& row : people::rows_of(s.position, s.before, s.judged)) {
    for (const double term : row) cases.rows.push_back(static_cast<float>(term));
  }
  cases.list.push_back(c);
}

}  // namespace

Cases read_cases(std::istream& in) {
  Cases cases;
  while (const auto sample = read(in)) add(*sample, cases);
  return cases;
}

}  // namespace kairos::people_tools
