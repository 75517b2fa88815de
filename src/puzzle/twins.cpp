// The set as a whole: no twins, best first, and mixed.
//
// Twins are puzzles with the same key (man, from, to) in the same structure (the pawns of both
// sides): the same idea met twice, in two games or at two moves of one. A puzzle whose position
// stands on the solution line of another from the same game is its tail, not a puzzle of its own.
// Of neighbours in one game the later shows what was played, and what the earlier one was about. Of
// each such pair the better one stays. The order is by quality for the level (quality.cpp), but
// each pick lowers the worth of what is like the last few picks, so that games, players, motifs,
// kinds, phases and difficulties alternate. When only so many are asked for, each game gives one
// before any gives a second.
#include <algorithm>
#include <cstdlib>
#include <map>
#include <tuple>

#include "kairos/puzzle/compose.hpp"

#include "quality.hpp"

namespace kairos::puzzle {

namespace {

constexpr int neighbourhood = 8;       // plies
constexpr std::size_t remembered = 4;  // last picks that the next should differ from

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

bool are_neighbours(const Puzzle& a, const Puzzle& b) {
  return a.game == b.game && std::abs(a.ply - b.ply) < neighbourhood;
}

auto place_of(const Puzzle& p) {
  return std::make_tuple(p.game, p.ply, static_cast<int>(p.kind));
}

// Best first; equal ones by their place in the run.
void sort_by_quality(std::vector<Puzzle>& puzzles, int level) {
  std::vector<std::pair<int, Puzzle*>> order;
  for (Puzzle& p : puzzles) order.emplace_back(quality(p, level), &p);
  std::stable_sort(order.begin(), order.end(), [](const auto& a, const auto& b) {
    return a.first != b.first ? a.first > b.first : place_of(*a.second) < place_of(*b.second);
  });
  std::vector<Puzzle> sorted;
  for (const auto& [points, p] : order) sorted.push_back(std::move(*p));
  puzzles = std::move(sorted);
}

std::vector<Puzzle> without_twins(std::vector<Puzzle> sorted) {
  std::vector<Puzzle> kept;
  for (Puzzle& p : sorted) {
    const bool told = std::any_of(kept.begin(), kept.end(), [&](const Puzzle& k) {
      return are_twins(k, p) || is_tail(k, p) || are_neighbours(k, p);
    });
    if (!told) kept.push_back(std::move(p));
  }
  return kept;
}

// One of the pool, while it is not picked.
struct Left {
  Puzzle* puzzle;
  Traits traits;
  int points;
};

// Picks one by one, most points first. Likeness only takes points off, so behind one whose quality
// is not above the best points so far nothing is better.
class Picker {
 public:
  // In the order of their quality; the pool must outlive this.
  Picker(std::vector<Puzzle>& pool, int level, bool game_by_game) : game_by_game_(game_by_game) {
    for (Puzzle& p : pool) left_.push_back({&p, Traits(p), quality(p, level)});
  }

  Puzzle pick() {
    auto best = best_left();
    if (best == left_.end()) {
      ++round_;
      best = best_left();
    }
    ++picked_of_[best->traits.game];
    last_.push_back(best->traits);
    if (last_.size() > remembered) last_.erase(last_.begin());
    const Puzzle* const puzzle = best->puzzle;
    left_.erase(best);
    return *puzzle;
  }

 private:
  using Place = std::vector<Left>::iterator;

  // The end when every game that has some left has given its share of this round.
  Place best_left() {
    Place best = left_.end();
    int best_points = 0;
    for (Place it = left_.begin(); it != left_.end(); ++it) {
      if (best != left_.end() && it->points <= best_points) break;
      if (game_by_game_ && picked_of_[it->traits.game] > round_) continue;
      int points = it->points;
      for (const Traits& traits : last_) points += likeness(traits, it->traits);
      if (best == left_.end() || points > best_points) best = it, best_points = points;
    }
    return best;
  }

  std::vector<Left> left_;
  std::vector<Traits> last_;
  std::map<std::uint64_t, int> picked_of_;  // by game
  bool game_by_game_;
  int round_ = 0;
};

}  // namespace

void keep_best(std::vector<Puzzle>& puzzles, std::size_t most, int level) {
  sort_by_quality(puzzles, level);
  if (puzzles.size() > most) puzzles.resize(most);
}

std::vector<Puzzle> arrange(std::vector<Puzzle> puzzles, std::size_t most, int level) {
  sort_by_quality(puzzles, level);
  std::vector<Puzzle> pool = without_twins(std::move(puzzles));
  Picker picker(pool, level, most > 0);
  const std::size_t count = most == 0 ? pool.size() : std::min(most, pool.size());
  std::vector<Puzzle> picked;
  while (picked.size() < count) picked.push_back(picker.pick());
  return picked;
}

}  // namespace kairos::puzzle
