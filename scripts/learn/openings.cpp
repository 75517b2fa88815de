// Positions of open games to begin self-play from, one FEN a line.
//
//   kairos_openings SEED GAMES...
//
// Of each game that can be played through: one position between plies 8 and 40, and one with at
// most 12 men where it came to that. Drawn by lot; each position once.
#include <iostream>
#include <string>
#include <unordered_set>
#include <vector>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"

#include "chance.hpp"
#include "each_game.hpp"

using namespace kairos;

namespace {

constexpr std::size_t from_ply = 8, to_ply = 40;
constexpr int few_men = 12;

void draw(const std::vector<rules::Position>& from, learn::Chance& chance,
          std::unordered_set<rules::Key>& seen) {
  if (from.empty()) return;
  const rules::Position& p = from[chance.below(from.size())];
  if (seen.insert(p.key()).second) std::cout << rules::to_fen(p) << '\n';
}

void draw_from_game(const pgn::Game& game, learn::Chance& chance,
                    std::unordered_set<rules::Key>& seen) {
  std::vector<rules::Position> middle, late;
  rules::Position p = game.start;
  std::size_t ply = 0;
  for (const rules::Move move : pgn::main_line_moves(game)) {
    p.play(move);
    if (!rules::has_legal_move(p)) break;
    const bool few = rules::count(p.occupied()) <= few_men;
    if (++ply >= from_ply && ply <= to_ply && !few) middle.push_back(p);
    if (few) late.push_back(p);
  }
  draw(middle, chance, seen);
  draw(late, chance, seen);
}

}  // namespace

int main(int count, char** words) {
  if (count < 3) {
    std::cerr << "usage: kairos_openings SEED GAMES...\n";
    return 2;
  }
  learn::Chance chance(std::stoull(words[1]));
  std::unordered_set<rules::Key> seen;
  for (int i = 2; i < count; ++i) {
    const auto draw_all = [&](const pgn::Game& game) { draw_from_game(game, chance, seen); };
    if (!learn::each_game(words[i], draw_all)) return 3;
  }
}
