// Plays moves for scripts/selfplay, asked line by line on standard input:
//   opening SEED            a balanced position after some random moves -> its FEN
//   new                     a new game: forgets everything
//   go NODES FEN | MOVE...  the game so far, moves as raw numbers
//                           -> the move's raw number, its score in centipawns, how the game stands
//                              after it (0 goes on, 1 mate, 2 drawn by the Laws)
//   quit
// Only the searcher's public interface is used, so that it builds with older revisions too.
#include <cstdlib>
#include <iostream>
#include <random>
#include <sstream>
#include <string>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"

using namespace kairos;

namespace {

constexpr std::size_t table_bytes = std::size_t{8} << 20;
constexpr int random_plies = 8;
constexpr std::uint64_t opening_nodes = 5'000;
constexpr search::Score balanced = 60;

search::Verdict think(search::Searcher& searcher, const rules::Position& p,
                      const std::vector<rules::Key>& earlier, std::uint64_t nodes) {
  search::Limits limits;
  limits.nodes = nodes;
  return searcher.search(p, earlier, limits);
}

std::string opening(unsigned seed) {
  std::mt19937 random(seed);
  search::Searcher searcher(table_bytes);
  for (;;) {
    rules::Position p = *rules::parse_fen(rules::start_fen);
    for (int i = 0; i < random_plies; ++i) {
      rules::MoveList moves;
      rules::legal_moves(p, moves);
      if (moves.empty()) break;
      p.play(moves[random() % moves.size()]);
    }
    if (!rules::has_legal_move(p)) continue;
    searcher.clear();
    const auto verdict = think(searcher, p, {}, opening_nodes);
    if (std::abs(verdict.lines.front().score) <= balanced) return rules::to_fen(p);
  }
}

int standing_after(const rules::Position& p, const std::vector<rules::Key>& earlier) {
  const rules::GameStatus status = rules::game_status(p, earlier);
  if (status == rules::GameStatus::open) return 0;
  return status == rules::GameStatus::checkmate ? 1 : 2;
}

std::string answer(search::Searcher& searcher, std::istringstream& words) {
  std::uint64_t nodes = 0;
  words >> nodes;
  std::string fen, word;
  while (words >> word && word != "|") fen += (fen.empty() ? "" : " ") + word;
  auto p = *rules::parse_fen(fen);
  std::vector<rules::Key> keys;
  unsigned raw = 0;
  while (words >> raw) {
    keys.push_back(p.key());
    p.play(rules::Move::from_raw(static_cast<std::uint16_t>(raw)));
  }
  const auto verdict = think(searcher, p, keys, nodes);
  const search::Line& line = verdict.lines.front();
  const rules::Move move = line.moves.front();
  keys.push_back(p.key());
  p.play(move);
  return std::to_string(move.raw()) + ' ' + std::to_string(line.score) + ' ' +
         std::to_string(standing_after(p, keys));
}

}  // namespace

int main() {
  search::Searcher searcher(table_bytes);
  for (std::string line; std::getline(std::cin, line) && line != "quit";) {
    std::istringstream words(line);
    std::string what;
    words >> what;
    if (what == "new") {
      searcher.clear();
    } else if (what == "opening") {
      unsigned seed = 0;
      words >> seed;
      std::cout << opening(seed) << std::endl;
    } else if (what == "go") {
      std::cout << answer(searcher, words) << std::endl;
    }
  }
}
