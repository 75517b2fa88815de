#include "error_chance.hpp"

#include <algorithm>
#include <vector>

#include "kairos/people/shares.hpp"
#include "kairos/study/all_moves.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::study {

namespace {

constexpr std::uint64_t most_nodes = 3'000;

// How far a move of that cost is an error, 0 .. 1.
double error_part(double cost) {
  constexpr double least = error_cost / 2, most = error_cost * 3 / 2;
  return std::clamp((cost - least) / (most - least), 0.0, 1.0);
}

// How far each of the moves is an error.
std::vector<double> error_parts(const std::vector<people::Judged>& judged, const Note& note) {
  const double second =
      expectation(note.lines[0].score) - expectation(note.lines[1].score);  // what it costs
  double best = 0;
  for (const people::Judged& j : judged) best = std::max(best, j.in_the_end);
  std::vector<double> parts;
  for (const people::Judged& j : judged) {
    double cost = std::max(second, best - j.in_the_end);
    if (j.move == note.lines[0].moves.front()) cost = 0;
    if (j.move == note.lines[1].moves.front()) cost = second;
    parts.push_back(error_part(cost));
  }
  return parts;
}

}  // namespace

ErrorChances error_chances_at(const Scoresheet& sheet, std::size_t ply, const Note& note,
                              const Effort& effort) {
  const rules::Position& position = sheet.positions[ply];
  const std::vector<people::Judged> judged =
      judge_all_moves(position, sheet.keys_before(static_cast<int>(ply)),
                      std::min(most_nodes, effort.survey_nodes));
  const std::vector<double> parts = error_parts(judged, note);
  const people::Before before = before_of(sheet.positions, sheet.moves, ply);
  ErrorChances chances{};
  for (std::size_t i = 0; i < chances.size(); ++i) {
    const people::Shares shares = people::shares(position, before, judged, chance_ratings[i]);
    double chance = 0;
    for (std::size_t m = 0; m < judged.size(); ++m) chance += shares.of[m] * parts[m];
    chances[i] = std::clamp(static_cast<int>(chance * chance_of + 0.5), 0, chance_of);
  }
  return chances;
}

}  // namespace kairos::study
