// What a player's notes assert of a move or of the position after it, and whether the facts bear it
// out. NAGs by the PGN standard (section 10); of comments only those that are nothing but a claim
// ("White wins", "draw", "mate in 3"): words inside longer text are never guessed at.
#pragma once

#include <vector>

#include "kairos/pgn/game.hpp"
#include "kairos/search/score.hpp"
#include "kairos/study/reason.hpp"

namespace kairos::study {

// Of a node with its move, made by `mover`: reasons of the kind assertion.
std::vector<Reason> assertions_of(const pgn::Annotation& annotation, rules::Move move,
                                  rules::Color mover);

// That the notes give the move at all.
Reason given_in_notes(rules::Move move);

// What is known of the move noted; expectations are the mover's.
struct NotedFacts {
  double best = 0;    // of the best move in the position before
  double second = 0;  // of the second best
  double made = 0;    // of the move made
  search::Score made_score = 0;
  bool is_best = false;
  rules::Color mover = rules::white;
};

// `slack` is taken off every threshold: 0 to tell, more to pick what is worth a search. That a move
// is given in the notes is contradicted by what it costs.
bool is_contradicted(const Reason& assertion, const NotedFacts& facts, double claim_cost,
                     double slack = 0);

// Marked by its author as a poor or doubtful move ($2, $4, $6): shown because it is bad.
bool is_marked_poor(const pgn::Annotation* annotation);

}  // namespace kairos::study
