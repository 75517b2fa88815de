// What one move in one position is worth, by a search of the position after it; and small questions
// about a move that more than one kind of moment and the puzzles ask.
//
// Scores are centipawns from the side that makes the move. Searching after the move sees one ply
// further than a search of the position itself, and it knows the Laws: a move that ends the game,
// or lets either side claim a draw by repetition or move count, is worth exactly that. The
// searcher's table is kept between calls; whoever needs a result that depends on nothing earlier
// clears it first.
#pragma once

#include <atomic>
#include <cstdint>
#include <span>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/searcher.hpp"

namespace kairos::study {

struct MoveVerdict {
  search::Score score = 0;           // of the move, from the side that makes it
  std::vector<rules::Move> replies;  // best play after it; empty when the game is over
  search::Verdict after;             // of the position after it, from the other side
  std::uint64_t nodes = 0;
};

// `earlier` are the keys before `position`; `lines` are asked of the position after the move;
// `stop` as in search/limits.hpp.
MoveVerdict search_move(const rules::Position& position, std::span<const rules::Key> earlier,
                        rules::Move move, std::uint64_t nodes, search::Searcher& searcher,
                        int lines = 1, const std::atomic<bool>* stop = nullptr);

// What a glance at the position shows: the first few choices of a search of 200 nodes that knows
// nothing from before, best first. (The published traps of the tests tempt it; with 1,000 nodes it
// sees through them.) Both for what tempts a player and for what tempts a solver.
search::Verdict glance(const rules::Position& position, std::span<const rules::Key> earlier);

// A score of the position after a move, seen from the side that made it: the sign turns, and a
// mate is one ply further away.
search::Score seen_from_before(search::Score reply);

// Whether `move` takes back on the square where the move before, `last`, has just taken.
// `before` is the position in which `last` was played.
bool takes_back(const rules::Position& before, rules::Move last, rules::Move move);

}  // namespace kairos::study
