#include "kairos/study/search_move.hpp"

#include <optional>

#include "kairos/rules/draws.hpp"

namespace kairos::study {

namespace {

// What the Laws say of a position, from the side to move; nothing when the game goes on.
std::optional<search::Score> by_the_laws(const rules::Position& p,
                                         std::span<const rules::Key> earlier) {
  switch (rules::game_status(p, earlier)) {
    case rules::GameStatus::open:
      return std::nullopt;
    case rules::GameStatus::checkmate:
      return search::mated_in_plies(0);
    case rules::GameStatus::stalemate:
    case rules::GameStatus::bare_material:
    case rules::GameStatus::fivefold:
    case rules::GameStatus::seventy_five_moves:
    case rules::GameStatus::threefold:
    case rules::GameStatus::fifty_moves:
      return search::draw_score;
  }
  return std::nullopt;
}

}  // namespace

search::Score seen_from_before(search::Score reply) {
  if (reply >= search::min_mate_score) return 1 - reply;
  if (reply <= -search::min_mate_score) return -reply - 1;
  return -reply;
}

MoveVerdict search_move(const rules::Position& position, std::span<const rules::Key> earlier,
                        rules::Move move, std::uint64_t nodes, search::Searcher& searcher,
                        int lines, const std::atomic<bool>* stop) {
  const rules::Position next = position.after(move);
  std::vector<rules::Key> keys(earlier.begin(), earlier.end());
  keys.push_back(position.key());
  MoveVerdict verdict;
  if (const auto score = by_the_laws(next, keys)) {
    verdict.score = seen_from_before(*score);
    return verdict;
  }
  search::Limits limits;
  limits.nodes = nodes;
  limits.lines = lines;
  limits.stop = stop;
  verdict.after = searcher.search(next, keys, limits);
  verdict.score = seen_from_before(verdict.after.lines.front().score);
  verdict.replies = verdict.after.lines.front().moves;
  verdict.nodes = verdict.after.nodes;
  return verdict;
}

search::Verdict glance(const rules::Position& position, std::span<const rules::Key> earlier) {
  constexpr std::size_t small_table = std::size_t{1} << 18;
  search::Limits limits;
  limits.nodes = 200;
  limits.lines = 4;
  return search::Searcher(small_table).search(position, earlier, limits);
}

bool takes_back(const rules::Position& before, rules::Move last, rules::Move move) {
  return before.is_capture(last) && last.to() == move.to();
}

}  // namespace kairos::study
