// The set as a whole: no twins, best first, and mixed.
//
// Twins are puzzles with the same key (man, from, to) in the same structure (the pawns of both
// sides): the same idea met twice, in two games or at two moves of one. A puzzle whose position
// stands on the solution line of another from the same game is its tail, not a puzzle of its own.
// Of each such pair the better one stays. The order is by quality, but each pick lowers the worth
// of what is like the last few picks, so that kinds, difficulties and games alternate.
#include <algorithm>
#include <tuple>

#include "kairos/puzzle/compose.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::puzzle {

namespace {

// Points of quality. Whole numbers, so that the order is the same everywhere.
constexpr int for_certainty = 40;  // times the gap in expectation
constexpr int for_each_try = 6;
constexpr int for_proved_mate = 8;
constexpr int for_quiet_win = 20, for_only_move = 5;
constexpr int for_each_level_from_middle = -4;
constexpr int for_same_kind = -6, for_same_level = -6, for_same_game = -20;
constexpr std::size_t remembered = 4;  // last picks that the next should differ from

int quality(const Puzzle& p) {
  const double gap = study::expectation(p.score) - study::expectation(p.second_score);
  int points = static_cast<int>(gap * for_certainty);
  points += static_cast<int>(p.tries.size()) * for_each_try;
  if (p.mate_moves > 1) points += for_proved_mate;
  if (p.kind == study::Kind::quiet_win) points += for_quiet_win;
  if (p.kind == study::Kind::only_move) points += for_only_move;
  points += for_each_level_from_middle * std::max(p.difficulty - 3, 3 - p.difficulty);
  return points;
}

bool are_twins(const Puzzle& a, const Puzzle& b) {
  if (a.position.side_to_move() != b.position.side_to_move()) return false;
  const rules::Move key = a.line.front();
  return key == b.line.front() &&
         a.position.piece_on(key.from()) == b.position.piece_on(key.from()) &&
         a.position.pieces(rules::white, rules::pawn) ==
             b.position.pieces(rules::white, rules::pawn) &&
         a.position.pieces(rules::black, rules::pawn) ==
             b.position.pieces(rules::black, rules::pawn);
}

// Whether `b` stands on the solution line of `a`, behind its start.
bool is_tail(const Puzzle& a, const Puzzle& b) {
  if (a.game != b.game) return false;
  rules::Position p = a.position;
  for (const rules::Move move : a.line) {
    p.play(move);
    if (p.key() == b.position.key()) return true;
  }
  return false;
}

auto place_of(const Puzzle& p) {
  return std::make_tuple(p.game, p.ply, static_cast<int>(p.kind));
}

// Best first; equal ones by their place in the run.
void sort_by_quality(std::vector<Puzzle>& puzzles) {
  std::stable_sort(puzzles.begin(), puzzles.end(), [](const Puzzle& a, const Puzzle& b) {
    const int left = quality(a), right = quality(b);
    return left != right ? left > right : place_of(a) < place_of(b);
  });
}

int likeness(const Puzzle& p, const std::vector<Puzzle>& picked) {
  int points = 0;
  const std::size_t from = picked.size() > remembered ? picked.size() - remembered : 0;
  for (std::size_t i = from; i < picked.size(); ++i) {
    if (picked[i].kind == p.kind) points += for_same_kind;
    if (picked[i].difficulty == p.difficulty) points += for_same_level;
    if (picked[i].game == p.game) points += for_same_game;
  }
  return points;
}

std::vector<Puzzle> without_twins(std::vector<Puzzle> sorted) {
  std::vector<Puzzle> kept;
  for (Puzzle& p : sorted) {
    const bool told = std::any_of(kept.begin(), kept.end(), [&](const Puzzle& k) {
      return are_twins(k, p) || is_tail(k, p);
    });
    if (!told) kept.push_back(std::move(p));
  }
  return kept;
}

}  // namespace

void keep_best(std::vector<Puzzle>& puzzles, std::size_t most) {
  sort_by_quality(puzzles);
  if (puzzles.size() > most) puzzles.resize(most);
}

// Likeness only takes points off, so behind a puzzle whose quality is not above the best points so
// far nothing is better.
std::vector<Puzzle> arrange(std::vector<Puzzle> puzzles, std::size_t most) {
  sort_by_quality(puzzles);
  std::vector<Puzzle> pool = without_twins(std::move(puzzles));
  std::vector<std::pair<Puzzle*, int>> left;  // in the order of their quality
  for (Puzzle& p : pool) left.emplace_back(&p, quality(p));
  if (most == 0 || most > left.size()) most = left.size();
  std::vector<Puzzle> picked;
  while (picked.size() < most) {
    auto best = left.begin();
    int best_points = best->second + likeness(*best->first, picked);
    for (auto it = std::next(best); it != left.end() && it->second > best_points; ++it) {
      const int points = it->second + likeness(*it->first, picked);
      if (points > best_points) best = it, best_points = points;
    }
    picked.push_back(std::move(*best->first));
    left.erase(best);
  }
  return picked;
}

}  // namespace kairos::puzzle
