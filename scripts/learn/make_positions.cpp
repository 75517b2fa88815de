// Makes many positions with cheap labels out of few games: what a network learns first.
//
//   kairos_make_positions OUT GAMES... [--a-ply N] [--nodes N] [--threads N] [--seed N]
//                         [--seconds S]
//
// From every position of the games it leaves the game by none to three random moves, `--a-ply`
// times, and searches what it comes to with `--nodes` nodes. Kept are quiet positions
// (positions.hpp). The trees of a search are full of such oddities, and games are not.
#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"

#include "chance.hpp"
#include "games.hpp"
#include "positions.hpp"

using namespace kairos;
using learn::Chance;

namespace {

constexpr std::size_t table_bytes = std::size_t{1} << 18;

struct Options {
  std::string out;
  std::vector<std::string> games;
  int a_ply = 4;
  std::uint64_t nodes = 100, seed = 1;
  unsigned threads = std::max(1U, std::thread::hardware_concurrency());
  double seconds = 1e9;
};

bool leave_game(rules::Position& p, Chance& chance) {
  constexpr std::uint64_t most_moves = 3;
  for (auto left = chance.below(most_moves + 1); left > 0; --left) {
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    if (moves.empty()) return false;
    p.play(moves[chance.below(moves.size())]);
  }
  return rules::has_legal_move(p);
}

std::vector<learn::Sample> samples_of(const learn::PackedGame& game, std::uint64_t number,
                                      const Options& options, search::Searcher& searcher) {
  Chance chance(options.seed << 40 ^ number);
  search::Limits limits;
  limits.nodes = options.nodes;
  std::vector<learn::Sample> samples;
  rules::Position p =
      game.start_fen.empty() ? rules::Position::start() : *rules::parse_fen(game.start_fen);
  for (const rules::Move move : game.moves) {
    for (int n = 0; n < options.a_ply; ++n) {
      rules::Position aside = p;
      if (!leave_game(aside, chance) || aside.in_check()) continue;
      const search::Verdict verdict = searcher.search(aside, {}, limits);
      const search::Line& best = verdict.lines.front();
      if (!learn::teaches(aside, best.moves.front(), best.score)) continue;
      samples.push_back(learn::pack(aside));
      samples.back().score = static_cast<std::int16_t>(best.score);
      samples.back().half_points = learn::no_result;
      samples.back().game = static_cast<std::uint32_t>(number);
    }
    p.play(move);
  }
  return samples;
}

Options read_options(int count, char** words) {
  Options o;
  o.out = words[1];
  for (int i = 2; i < count; ++i) {
    const std::string name = words[i];
    if (!name.starts_with("--")) {
      o.games.push_back(name);
      continue;
    }
    const std::string value = i + 1 < count ? words[++i] : "";
    if (name == "--a-ply") o.a_ply = std::stoi(value);
    if (name == "--nodes") o.nodes = std::stoull(value);
    if (name == "--seconds") o.seconds = std::stod(value);
    if (name == "--seed") o.seed = std::stoull(value);
    if (name == "--threads") o.threads = static_cast<unsigned>(std::stoul(value));
  }
  return o;
}

}  // namespace

int main(int count, char** words) {
  if (count < 3) {
    std::cerr << "usage: kairos_make_positions OUT GAMES... [options: see the source]\n";
    return 2;
  }
  const Options options = read_options(count, words);
  std::vector<learn::PackedGame> games;
  for (const std::string& path : options.games) {
    learn::GameReader reader(path);
    while (auto game = reader.next()) games.push_back(std::move(*game));
  }
  learn::SampleWriter out(options.out);
  std::mutex mutex;
  std::atomic<std::size_t> next{0};
  std::uint64_t made = 0;
  const auto start = std::chrono::steady_clock::now();
  const auto work = [&] {
    search::Searcher searcher(table_bytes);
    for (std::size_t n = next++; n < games.size(); n = next++) {
      if (std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count() >
          options.seconds) {
        return;
      }
      searcher.clear();
      const auto samples = samples_of(games[n], n, options, searcher);
      const std::lock_guard lock(mutex);
      out.write(samples);
      made += samples.size();
      if (n % 1000 == 0) std::cerr << n << " games, " << made << " positions\n";
    }
  };
  std::vector<std::thread> threads;
  for (unsigned i = 0; i < options.threads; ++i) threads.emplace_back(work);
  for (auto& thread : threads) thread.join();
  return out.good() ? 0 : 1;
}
