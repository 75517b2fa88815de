// Random legal games, played side by side on the library's position and on the oracle's board.
//
// Starts lie where rules are dense (promotions near, castling open, en passant ready), and rare
// moves are preferred, so that a few hundred games meet every rule many times. Seeded; the seed is
// printed with a failure.
#pragma once

#include <catch2/catch.hpp>
#include <cctype>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"

#include "oracles/rules_naive.hpp"

namespace kairos::test {

inline const std::vector<std::string> random_game_starts{
    std::string(rules::start_fen),
    "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
    "r3k2r/8/8/8/8/8/8/R3K2R b KQkq - 0 1",
    "6k1/PPPP2pp/8/8/8/8/pp2PPPP/4K3 w - - 0 1",
    "8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1",
    "k7/2p1p1p1/8/1P1P1P1P/1p1p1p1p/8/2P1P1P1/K7 w - - 0 1",
    "rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8",
    "2q1k3/8/1n1n4/8/3Q4/1N1N1N2/8/2Q1K1Q1 w - - 0 1",
};

// The library's move in the oracle's terms.
inline oracles::NaiveMove to_naive(rules::Move m) {
  const char promotion =
      m.is_promotion() ? rules::letter_of(rules::make_piece(rules::white, m.promoted())) : ' ';
  return {m.from(), m.to(), promotion};
}

// One of the legal moves; a special one, if there is any, half of the time.
inline rules::Move pick(const rules::MoveList& moves, std::mt19937_64& random) {
  std::vector<rules::Move> special;
  for (const rules::Move m : moves) {
    if (m.is_promotion() || m.is_castling() || m.is_en_passant()) special.push_back(m);
  }
  if (!special.empty() && random() % 2 == 0) return special[random() % special.size()];
  return moves[random() % moves.size()];
}

// Calls visit(position, board, move to be played, random) on every position of `games` games that
// has a move.
template <typename Visit>
void for_each_random_position(std::uint64_t seed, int games, Visit visit) {
  std::mt19937_64 random(seed);
  for (int game = 0; game < games; ++game) {
    const std::string& fen =
        random_game_starts[static_cast<std::size_t>(game) % random_game_starts.size()];
    rules::Position position = rules::parse_fen(fen).value();
    oracles::NaiveBoard board = oracles::naive_board(fen);
    for (int ply = 0; ply < 120; ++ply) {
      rules::MoveList moves;
      rules::legal_moves(position, moves);
      if (moves.empty()) break;
      const rules::Move move = pick(moves, random);
      INFO("seed " << seed << ", game " << game << ", ply " << ply << ", "
                   << oracles::naive_fen(board));
      visit(position, board, move, random);
      position.play(move);
      board = oracles::naive_play(board, to_naive(move));
    }
  }
}

}  // namespace kairos::test
