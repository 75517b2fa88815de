// Slow, obvious twins of the clever parts of search, for tests only.
//
// Each is a direct reading of its definition: no bitboard tricks, no tables, no alpha-beta. Values
// as in the headers they mirror (exchange_value, settle, Searcher, prove_mate).
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

namespace kairos::oracles {

// Least valuable man takes first, by scanning the board anew for every capture.
search::Score naive_exchange(const rules::Position& position, rules::Move move);

// Minimax over all moves for `plies`, then over captures, promotions and evasions; gain as in
// `Settled`.
search::Score naive_settle(const rules::Position& position, int plies);

// Minimax over all moves for `depth` plies, then over what quiescence looks at: all evasions, else
// the position as it stands, captures and queens that do not lose by exchanges, at its first ply
// quiet checks too. A position met again on the path is drawn. The score of each legal move, in
// the order of `rules::legal_moves`.
std::vector<search::Score> naive_search(const rules::Position& position, int depth);

// Whether the side to move mates in at most `moves` moves, by trying everything.
bool naive_mates(const rules::Position& position, int moves);

// Moves to mate of every position of king and one man against king, by retrograde analysis.
class ThreeMen {
 public:
  explicit ThreeMen(rules::PieceType man);  // queen or rook, White's

  // Full moves until White mates, White to move; nothing when he does not.
  [[nodiscard]] std::optional<int> moves_to_mate(const rules::Position& p) const;
  [[nodiscard]] int longest() const;

 private:
  std::map<rules::Key, int> plies_;  // to mate, White to move
};

// A legal position reached by `plies` random moves from `start`; fewer when the game ends.
rules::Position random_play(std::mt19937_64& random, const rules::Position& start, int plies);

}  // namespace kairos::oracles
