// Slow, obvious twins of the clever parts of search, for tests only.
//
// Each is a direct reading of its definition: no bitboard tricks, no tables, no alpha-beta. Values
// as in the headers they mirror (exchange_value, settle, prove_mate).
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <random>
#include <string>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

namespace kairos::oracles {

// Least valuable man takes first, by scanning the board anew for every capture.
search::Score naive_exchange(const rules::Position& position, rules::Move move);

// Minimax over all moves for `plies`, then over captures, promotions and evasions; gain as in
// `Settled`.
search::Score naive_settle(const rules::Position& position, int plies);

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
