// Plays the games that a network learns from: the core against itself.
//
//   kairos_make_games OUT [--openings FILE] [--first N] [--games N] [--nodes N] [--threads N]
//                         [--seconds S]
//
// A game is known by its number: number, openings and program give the game, whatever the threads.
// Where it begins is drawn by lot: from the start position after 8 to 12 random moves; from a
// position of FILE (a FEN a line, of open games: scripts/learn/openings) after none to three; a
// third of those with at most 12 men, so that endings have their share. Beginnings that are decided
// already are drawn again. Then both sides play what a search of `--nodes` finds. A game ends by
// the Laws, by 15 pawns' advantage four plies running, or drawn: level for 20 plies after ply 120,
// or 320 plies long.
//
// With `--seconds` no game is begun after so long; the file then holds as many as were done, in
// the order of their numbers.
#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <iostream>
#include <map>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"

#include "chance.hpp"
#include "games.hpp"

using namespace kairos;
using learn::Chance;
using learn::PackedGame;

namespace {

constexpr std::size_t table_bytes = std::size_t{1} << 20;  // stays near the processor
constexpr search::Score one_sided = 300;                   // a beginning beyond is drawn again
constexpr search::Score decided = 1500;
constexpr int decided_plies = 4;
constexpr search::Score level = 5;
constexpr int level_plies = 20;
constexpr std::size_t level_from = 120, most_plies = 320;
constexpr int few_men = 12;

struct Openings {
  std::vector<std::string> many_men, few_men;
};

struct Options {
  std::string out, openings;
  std::uint64_t first = 0, games = 1'000'000'000, nodes = 5'000;
  unsigned threads = std::max(1U, std::thread::hardware_concurrency());
  double seconds = 1e9;
};

struct Table {
  PackedGame game;
  rules::Position position = rules::Position::start();
  std::vector<rules::Key> earlier;

  void play(rules::Move move, std::int16_t score) {
    game.moves.push_back(move);
    game.scores.push_back(score);
    earlier.push_back(position.key());
    position.play(move);
  }
};

// False when the moves run out.
bool play_at_random(Table& table, int plies, Chance& chance) {
  for (int i = 0; i < plies; ++i) {
    rules::MoveList moves;
    rules::legal_moves(table.position, moves);
    if (moves.empty()) return false;
    table.play(moves[chance.below(moves.size())], learn::no_score);
  }
  return rules::game_status(table.position, table.earlier) == rules::GameStatus::open;
}

bool begin(Table& table, const Openings& openings, Chance& chance) {
  table = {};
  const auto lot = chance.below(100);
  if (openings.many_men.empty() || openings.few_men.empty() || lot < 50) {
    return play_at_random(table, 8 + static_cast<int>(chance.below(5)), chance);
  }
  const auto& from = lot < 83 ? openings.many_men : openings.few_men;
  table.game.start_fen = from[chance.below(from.size())];
  table.position = *rules::parse_fen(table.game.start_fen);
  return play_at_random(table, static_cast<int>(chance.below(4)), chance);
}

// White's half points once the game has ended by the Laws or by the rules above; else -1.
class Arbiter {
 public:
  int judge(const Table& table) const {
    const rules::GameStatus status = rules::game_status(table.position, table.earlier);
    if (status == rules::GameStatus::checkmate) {
      return table.position.side_to_move() == rules::white ? 0 : 2;
    }
    if (status != rules::GameStatus::open || table.game.moves.size() >= most_plies) return 1;
    if (won_ >= decided_plies) return leader_ == rules::white ? 2 : 0;
    if (level_ >= level_plies && table.game.moves.size() >= level_from) return 1;
    return -1;
  }
  // `score` is that of the side to move.
  void hear(rules::Color side, search::Score score) {
    level_ = std::abs(score) <= level ? level_ + 1 : 0;
    const rules::Color leader = score > 0 ? side : ~side;
    won_ = std::abs(score) < decided ? 0 : leader == leader_ ? won_ + 1 : 1;
    leader_ = leader;
  }

 private:
  rules::Color leader_ = rules::white;
  int won_ = 0, level_ = 0;
};

PackedGame play_game(std::uint64_t number, const Options& options, const Openings& openings,
                     search::Searcher& searcher) {
  Chance chance(number);
  search::Limits limits;
  limits.nodes = options.nodes;
  for (;;) {
    Table table;
    if (!begin(table, openings, chance)) continue;
    searcher.clear();
    Arbiter arbiter;
    bool is_first = true;
    for (;;) {
      const int half_points = arbiter.judge(table);
      if (half_points >= 0) {
        table.game.half_points = static_cast<std::uint8_t>(half_points);
        return table.game;
      }
      const auto verdict = searcher.search(table.position, table.earlier, limits);
      const search::Line& best = verdict.lines.front();
      if (is_first && std::abs(best.score) > one_sided) break;
      is_first = false;
      arbiter.hear(table.position.side_to_move(), best.score);
      table.play(best.moves.front(), static_cast<std::int16_t>(best.score));
    }
  }
}

// Writes games in the order of their numbers, whoever is done first.
class InOrder {
 public:
  InOrder(const std::string& path, std::uint64_t first) : writer_(path), next_(first) {}

  void add(std::uint64_t number, PackedGame game) {
    const std::lock_guard lock(mutex_);
    waiting_.emplace(number, std::move(game));
    while (!waiting_.empty() && waiting_.begin()->first == next_) {
      const PackedGame& done = waiting_.begin()->second;
      writer_.write(done);
      positions_ += done.moves.size();
      if (++next_ % 500 == 0) {
        std::cerr << next_ << " games, " << positions_ << " plies\n";
      }
      waiting_.erase(waiting_.begin());
    }
  }
  [[nodiscard]] bool good() const { return writer_.good(); }

 private:
  std::mutex mutex_;
  learn::GameWriter writer_;
  std::map<std::uint64_t, PackedGame> waiting_;
  std::uint64_t next_, positions_ = 0;
};

Openings read_openings(const std::string& path) {
  Openings openings;
  std::ifstream file(path);
  for (std::string fen; std::getline(file, fen);) {
    const auto position = rules::parse_fen(fen);
    if (!position) continue;
    const bool few = rules::count(position->occupied()) <= few_men;
    (few ? openings.few_men : openings.many_men).push_back(fen);
  }
  return openings;
}

Options read_options(int count, char** words) {
  Options o;
  o.out = words[1];
  for (int i = 2; i + 1 < count; i += 2) {
    const std::string name = words[i], value = words[i + 1];
    if (name == "--openings") o.openings = value;
    if (name == "--first") o.first = std::stoull(value);
    if (name == "--games") o.games = std::stoull(value);
    if (name == "--nodes") o.nodes = std::stoull(value);
    if (name == "--threads") o.threads = static_cast<unsigned>(std::stoul(value));
    if (name == "--seconds") o.seconds = std::stod(value);
  }
  return o;
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) {
    std::cerr << "usage: kairos_make_games OUT [--openings FILE] [--first N] [--games N] "
                 "[--nodes N] [--threads N] [--seconds S]\n";
    return 2;
  }
  const Options options = read_options(count, words);
  const Openings openings = read_openings(options.openings);
  InOrder out(options.out, options.first);
  const auto start = std::chrono::steady_clock::now();
  std::atomic<std::uint64_t> next{options.first};
  const auto work = [&] {
    search::Searcher searcher(table_bytes);
    for (auto n = next++; n < options.first + options.games; n = next++) {
      if (std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count() >
          options.seconds) {
        return;
      }
      out.add(n, play_game(n, options, openings, searcher));
    }
  };
  std::vector<std::thread> threads;
  for (unsigned i = 0; i < options.threads; ++i) threads.emplace_back(work);
  for (auto& thread : threads) thread.join();
  return out.good() ? 0 : 1;
}
