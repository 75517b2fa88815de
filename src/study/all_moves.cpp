// Every look searches all the moves it is about to the same depth, so that what it says of two of
// them compares. The last one leaves out what has been seen to be bad: such a move keeps the cost
// it had. Before it, one search for the best move alone sees further than a look at many does, and
// may bring up a move that seemed bad.
#include "kairos/study/all_moves.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::study {

namespace {

constexpr std::size_t table_bytes = std::size_t{1} << 20;
constexpr std::uint64_t glance_nodes = 300, soon_nodes = 3'000;
constexpr std::uint64_t best_nodes = 12'000, end_nodes = 24'700;
static_assert(glance_nodes + soon_nodes + best_nodes + end_nodes == most_nodes_of_looks);
// Moves that the last look is about: so many at most, none that seemed to cost more.
constexpr std::size_t most_in_the_end = 12;
constexpr double most_cost_soon = 0.30;

class Looks {
 public:
  Looks(const rules::Position& position, std::span<const rules::Key> earlier, std::uint64_t nodes)
      : position_(position),
        earlier_(earlier),
        nodes_(std::min(nodes, most_nodes_of_looks)),
        searcher_(table_bytes) {
    rules::MoveList legal;
    rules::legal_moves(position, legal);
    for (const rules::Move move : legal) judged_.push_back({move, 0, 0, 0});
  }

  std::vector<people::Judged> take() && {
    if (judged_.empty()) return std::move(judged_);
    look(glance_nodes, {}, judged_.size(), &people::Judged::at_a_glance);
    look(soon_nodes, {}, judged_.size(), &people::Judged::soon);
    look_to_the_end();
    return std::move(judged_);
  }

 private:
  // What the search says of its moves, written where it belongs; returns them, best first.
  std::vector<rules::Move> look(std::uint64_t nodes, std::vector<rules::Move> moves,
                                std::size_t lines, double people::Judged::*where) {
    search::Limits limits;
    limits.nodes = nodes * nodes_ / most_nodes_of_looks;
    limits.lines = static_cast<int>(lines);
    limits.root_moves = std::move(moves);
    std::vector<rules::Move> seen;
    for (const search::Line& line : searcher_.search(position_, earlier_, limits).lines) {
      seen.push_back(line.moves.front());
      of(seen.back()).*where = expectation(line.score);
    }
    return seen;
  }

  void look_to_the_end() {
    std::vector<people::Judged> by_soon = judged_;
    std::ranges::stable_sort(by_soon, std::greater{}, &people::Judged::soon);
    const double best_soon = by_soon.front().soon;
    std::vector<rules::Move> moves;
    for (const people::Judged& j : by_soon) {
      if (moves.size() == most_in_the_end || best_soon - j.soon > most_cost_soon) break;
      moves.push_back(j.move);
    }
    const rules::Move best = look(best_nodes, {}, 1, &people::Judged::in_the_end).front();
    if (std::ranges::find(moves, best) == moves.end()) moves.push_back(best);
    look(end_nodes, moves, moves.size(), &people::Judged::in_the_end);
    double best_end = 0;
    for (const rules::Move move : moves) best_end = std::max(best_end, of(move).in_the_end);
    for (people::Judged& j : judged_) {
      if (std::ranges::find(moves, j.move) != moves.end()) continue;
      j.in_the_end = std::max(0.0, best_end - (best_soon - j.soon));
    }
  }

  people::Judged& of(rules::Move move) {
    return *std::ranges::find(judged_, move, &people::Judged::move);
  }

  const rules::Position& position_;
  std::span<const rules::Key> earlier_;
  std::uint64_t nodes_;  // of all looks
  search::Searcher searcher_;
  std::vector<people::Judged> judged_;
};

}  // namespace

std::vector<people::Judged> judge_all_moves(const rules::Position& position,
                                            std::span<const rules::Key> earlier,
                                            std::uint64_t nodes) {
  return Looks(position, earlier, nodes).take();
}

people::Before before_of(std::span<const rules::Position> positions,
                         std::span<const rules::Move> moves, std::size_t ply) {
  people::Before before;
  if (ply >= 1) {
    before.last = moves[ply - 1];
    before.last_took = positions[ply - 1].is_capture(before.last);
  }
  if (ply >= 2) before.own_last = moves[ply - 2];
  return before;
}

}  // namespace kairos::study
