// What a player's notes assert of a move or of the position after it, and whether the facts bear it
// out. NAGs by the PGN standard (section 10); of comments only those that are nothing but a claim
// ("White wins", "draw", "mate in 3"): words inside longer text are never guessed at.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kairos/pgn/game.hpp"
#include "kairos/search/score.hpp"

namespace kairos::study {

struct Assertion {
  enum class About : std::uint8_t {
    good_move,  // $1, $3
    poor_move,  // $2, $4
    only_move,  // $7, $8
    level,      // $10..$12, "draw"
    advantage,  // $14..$21, "White wins": `side` stands so well that it expects `least`
    mate,       // "mate in N": the mover mates in at most `moves` more
  };
  About about = About::good_move;
  rules::Color side = rules::white;
  double least = 0;
  int moves = 0;
  std::string words;  // as told to a person: "marked as good", "called won for White"
};

// Of a node whose move was made by `mover`.
std::vector<Assertion> assertions_of(const pgn::Annotation& annotation, rules::Color mover);

// What is known of the move; expectations are the mover's.
struct MoveFacts {
  double best = 0;    // of the best move in the position before
  double second = 0;  // of the second best
  double made = 0;    // of the move made
  search::Score made_score = 0;
  bool is_best = false;
  rules::Color mover = rules::white;
};

// `slack` is taken off every threshold: 0 to tell, more to pick what is worth a search.
bool is_contradicted(const Assertion& assertion, const MoveFacts& facts, double claim_cost,
                     double slack = 0);

// Marked by its author as a poor or doubtful move ($2, $4, $6): shown because it is bad.
bool is_marked_poor(const pgn::Annotation* annotation);

}  // namespace kairos::study
