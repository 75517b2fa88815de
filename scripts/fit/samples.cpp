#include "samples.hpp"

#include <atomic>
#include <fstream>
#include <iostream>
#include <mutex>
#include <random>
#include <sstream>
#include <thread>
#include <unordered_set>

#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/rules/draws.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"

namespace kairos::fit {

using rules::Move;
using rules::Position;

namespace {

constexpr std::size_t first_ply = 12;
constexpr std::size_t every = 2;  // plies between two samples of a game
constexpr int decided = 1500;     // beyond this score a position teaches nothing

struct Record {
  Position position;
  int half_points;
  std::uint32_t game;
};

bool wins_material(const Position& p) {
  rules::MoveList noisy;
  rules::legal_moves(p, noisy, rules::Moves::noisy);
  for (const Move m : noisy) {
    if (search::exchange_value(p, m) > 0) return true;
  }
  return false;
}

bool is_quiet(const Position& p) {
  return !p.in_check() && rules::has_legal_move(p) && !wins_material(p);
}

std::string to_line(const Record& r, int score) {
  return rules::to_fen(r.position) + ';' + std::to_string(r.half_points) + ';' +
         std::to_string(score) + ';' + std::to_string(r.game) + '\n';
}

// Searches the records on all processors and writes those whose best move is quiet, in order.
int write_searched(const std::vector<Record>& records, std::uint64_t nodes,
                   const std::string& out) {
  std::vector<std::string> lines(records.size());
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    search::Searcher searcher(std::size_t{1} << 20);
    for (std::size_t i = next++; i < records.size(); i = next++) {
      const Position& p = records[i].position;
      searcher.clear();
      search::Limits limits;
      limits.nodes = nodes;
      const search::Verdict v = searcher.search(p, {}, limits);
      const Move best = v.lines.front().moves.front();
      const int score = v.lines.front().score;
      if (p.is_capture(best) || best.is_promotion() || std::abs(score) > decided) continue;
      lines[i] = to_line(records[i], p.side_to_move() == rules::white ? score : -score);
    }
  };
  std::vector<std::thread> threads;
  for (unsigned i = 0; i < std::max(1U, std::thread::hardware_concurrency()); ++i) {
    threads.emplace_back(work);
  }
  for (auto& t : threads) t.join();
  std::ofstream file(out);
  for (const std::string& line : lines) file << line;
  return file.good() ? 0 : 1;
}

class Collector {
 public:
  void add(const Position& p, int half_points, std::uint32_t game) {
    if (is_quiet(p) && seen_.insert(p.key()).second) records.push_back({p, half_points, game});
  }
  std::vector<Record> records;

 private:
  std::unordered_set<rules::Key> seen_;
};

void collect_game(pgn::Game& game, std::uint32_t number, Collector& collector) {
  base::FaultList faults;
  const pgn::Replay replay = pgn::replay(game, faults);
  if (replay.state != pgn::Replay::State::playable) return;
  if (game.result == pgn::GameResult::unknown) return;
  const int half_points = game.result == pgn::GameResult::white_wins   ? 2
                          : game.result == pgn::GameResult::black_wins ? 0
                                                                       : 1;
  Position p = game.start;
  const std::vector<Move> moves = pgn::main_line_moves(game);
  for (std::size_t ply = 0; ply < moves.size(); ++ply) {
    if (ply >= first_ply && (ply + number) % every == 0) collector.add(p, half_points, number);
    p.play(moves[ply]);
  }
}

}  // namespace

int collect(const std::vector<std::string>& files, std::uint64_t nodes, const std::string& out) {
  Collector collector;
  std::uint32_t number = 0;
  for (const std::string& file : files) {
    auto source = pgn::open_games(file);
    if (!source) {
      std::cerr << base::describe(source.fault()) << '\n';
      return 1;
    }
    base::FaultList faults;
    pgn::Reader reader(**source, file, faults);
    while (auto game = reader.next()) collect_game(*game, ++number, collector);
  }
  std::cerr << number << " games, " << collector.records.size() << " quiet positions\n";
  return write_searched(collector.records, nodes, out);
}

namespace {

struct Played {
  std::vector<Record> records;  // of quiet positions whose best move is quiet
  std::vector<int> scores;      // White's, one a record
  int half_points = 1;
};

// Keeps a position of the game if it teaches something.
void sample(const Position& p, const search::Line& best, Played& game) {
  const Move m = best.moves.front();
  if (p.is_capture(m) || m.is_promotion() || std::abs(best.score) > decided || !is_quiet(p)) return;
  game.records.push_back({p, 0, 0});
  game.scores.push_back(p.side_to_move() == rules::white ? best.score : -best.score);
}

// A few random moves first, so that no two games are the same; dropped when already one-sided.
bool random_opening(std::mt19937_64& random, Position& p, std::vector<rules::Key>& keys) {
  const int plies = 8 + static_cast<int>(random() % 4);
  for (int i = 0; i < plies; ++i) {
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    if (moves.empty()) return false;
    keys.push_back(p.key());
    p.play(moves[random() % moves.size()]);
  }
  return rules::has_legal_move(p);
}

bool play_game(search::Searcher& searcher, std::uint64_t nodes, std::uint64_t seed, Played& game) {
  std::mt19937_64 random(seed);
  Position p = Position::start();
  std::vector<rules::Key> keys;
  if (!random_opening(random, p, keys)) return false;
  searcher.clear();
  search::Limits limits;
  limits.nodes = nodes;
  int decided_plies = 0;
  for (int ply = 0; ply < 320; ++ply) {
    const rules::GameStatus status = rules::game_status(p, keys);
    const bool white_moves = p.side_to_move() == rules::white;
    if (status == rules::GameStatus::checkmate) {
      game.half_points = white_moves ? 0 : 2;
      return true;
    }
    if (status != rules::GameStatus::open) return true;
    const search::Verdict v = searcher.search(p, keys, limits);
    const int score = v.lines.front().score;
    if (ply == 0 && std::abs(score) > 200) return false;
    decided_plies = std::abs(score) > 1000 ? decided_plies + 1 : 0;
    if (decided_plies >= 6) {
      game.half_points = (score > 0) == white_moves ? 2 : 0;
      return true;
    }
    if (static_cast<std::size_t>(ply) % every == 0) sample(p, v.lines.front(), game);
    keys.push_back(p.key());
    p.play(v.lines.front().moves.front());
  }
  return true;
}

}  // namespace

int play(int games, std::uint64_t nodes, std::uint64_t seed, const std::string& out) {
  std::vector<Played> played(static_cast<std::size_t>(games));
  std::atomic<int> next{0};
  const auto work = [&] {
    search::Searcher searcher(std::size_t{4} << 20);
    for (int i = next++; i < games; i = next++) {
      Played game;
      const std::uint64_t game_seed = seed * 1'000'003 + static_cast<std::uint64_t>(i);
      if (play_game(searcher, nodes, game_seed, game)) {
        played[static_cast<std::size_t>(i)] = std::move(game);
      }
      if (i % 500 == 0) std::cerr << i << " games\n";
    }
  };
  std::vector<std::thread> threads;
  for (unsigned i = 0; i < std::max(1U, std::thread::hardware_concurrency()); ++i) {
    threads.emplace_back(work);
  }
  for (auto& t : threads) t.join();
  std::ofstream file(out);
  std::unordered_set<rules::Key> seen;
  std::uint32_t number = 1'000'000;  // apart from the numbers of people's games
  for (Played& game : played) {
    ++number;
    for (std::size_t i = 0; i < game.records.size(); ++i) {
      Record& r = game.records[i];
      r.half_points = game.half_points;
      r.game = number;
      if (seen.insert(r.position.key()).second) file << to_line(r, game.scores[i]);
    }
  }
  std::cerr << seen.size() << " quiet positions\n";
  return file.good() ? 0 : 1;
}

std::vector<Sample> read_samples(const std::string& path) {
  std::vector<Sample> samples;
  std::ifstream in(path);
  std::string line;
  while (std::getline(in, line)) {
    std::istringstream fields(line);
    std::string fen, half_points, score, game;
    std::getline(fields, fen, ';');
    std::getline(fields, half_points, ';');
    std::getline(fields, score, ';');
    std::getline(fields, game, ';');
    if (auto p = rules::parse_fen(fen)) {
      samples.push_back({*p, std::stoi(half_points), std::stoi(score),
                         static_cast<std::uint32_t>(std::stoul(game))});
    }
  }
  return samples;
}

}  // namespace kairos::fit
