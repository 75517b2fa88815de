// Plays by copying: a position is small, so that a copy costs less than taking a move back would.
// The last ply is not played at all, its moves are only counted; that is where nearly all of them
// are.
#include "kairos/rules/perft.hpp"

#include "generator.hpp"
#include "mover.hpp"

namespace kairos::rules {

namespace {

// `depth` at least 1. The colour changes with each call, so that every look-up by colour is known
// to the compiler.
template <Color us>
std::uint64_t count_sequences(const Position& p, int depth) {
  if (depth == 1) return static_cast<std::uint64_t>(count_moves<us>(p));
  MoveList moves;
  list_moves<us>(p, moves);
  std::uint64_t total = 0;
  for (const Move m : moves) {
    Position after = p;
    Mover::play<us>(after, m);
    total += count_sequences<~us>(after, depth - 1);
  }
  return total;
}

}  // namespace

std::uint64_t perft(const Position& p, int depth) {
  if (depth <= 0) return 1;
  return p.side_to_move() == white ? count_sequences<white>(p, depth)
                                   : count_sequences<black>(p, depth);
}

std::vector<std::pair<Move, std::uint64_t>> divide(const Position& p, int depth) {
  MoveList moves;
  legal_moves(p, moves);
  std::vector<std::pair<Move, std::uint64_t>> counts;
  counts.reserve(moves.size());
  for (const Move m : moves) {
    Position after = p;
    after.play(m);
    counts.emplace_back(m, perft(after, depth - 1));
  }
  return counts;
}

}  // namespace kairos::rules
