#include "kairos/study/crowd.hpp"

#include <algorithm>

#include "kairos/people/shares.hpp"
#include "kairos/study/all_moves.hpp"

namespace kairos::study {

Crowd::Crowd(const rules::Position& position, std::span<const rules::Key> earlier,
             const people::Before& before, std::uint64_t nodes)
    : position_(position), before_(before), judged_(judge_all_moves(position, earlier, nodes)) {}

int Crowd::players_of(rules::Move move, int rating) const {
  const people::Shares shares = people::shares(position_, before_, judged_, rating);
  return static_cast<int>(people::share_of(move, judged_, shares) * find_rate_of + 0.5);
}

std::vector<rules::Move> Crowd::by_share(int rating) const {
  const people::Shares shares = people::shares(position_, before_, judged_, rating);
  std::vector<std::size_t> order(judged_.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::ranges::stable_sort(order, std::greater{}, [&](std::size_t i) { return shares.of[i]; });
  std::vector<rules::Move> moves;
  for (const std::size_t i : order) moves.push_back(judged_[i].move);
  return moves;
}

Crowd crowd_at(const Scoresheet& sheet, int ply, std::uint64_t nodes) {
  const auto at = static_cast<std::size_t>(ply);
  return {sheet.positions[at], sheet.keys_before(ply), before_of(sheet.positions, sheet.moves, at),
          nodes};
}

}  // namespace kairos::study
