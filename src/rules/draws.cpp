#include "kairos/rules/draws.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"

namespace kairos::rules {

std::string_view words(GameStatus s) {
  switch (s) {
    case GameStatus::open:
      return "the game goes on";
    case GameStatus::checkmate:
      return "checkmate";
    case GameStatus::stalemate:
      return "stalemate";
    case GameStatus::bare_material:
      return "neither side has the men to mate";
    case GameStatus::fivefold:
      return "the position has stood five times";
    case GameStatus::seventy_five_moves:
      return "75 moves without capture or pawn move";
    case GameStatus::threefold:
      return "the position has stood three times";
    case GameStatus::fifty_moves:
      return "50 moves without capture or pawn move";
  }
  return {};
}

bool is_checkmate(const Position& p) {
  return p.in_check() && !has_legal_move(p);
}
bool is_stalemate(const Position& p) {
  return !p.in_check() && !has_legal_move(p);
}

// The Laws list no men; "no series of legal moves" (5.2.2) comes to this. With bishops on one
// colour only, the king in a corner of the other colour is never checked, nor are the squares
// beside it all taken from it; a knight beside anything but the kings can help to mate.
bool is_bare_material(const Position& p) {
  const Bitboard bishops = p.pieces(bishop), knights = p.pieces(knight);
  if ((p.occupied() ^ p.pieces(king) ^ bishops ^ knights) != 0) return false;
  if (knights != 0) return bishops == 0 && !more_than_one(knights);
  return (bishops & dark_squares) == 0 || (bishops & ~dark_squares) == 0;
}

int occurrences(const Position& p, std::span<const Key> earlier) {
  // No position before the last capture or pawn move can come back.
  const std::size_t reach = std::min(earlier.size(), static_cast<std::size_t>(p.halfmove_clock()));
  const auto recent = earlier.last(reach);
  return 1 + static_cast<int>(std::count(recent.begin(), recent.end(), p.key()));
}

// Mate comes before every draw (9.6.2 says so of the 75 moves), and what ends the game by itself
// before what must be claimed.
GameStatus game_status(const Position& p, std::span<const Key> earlier) {
  if (!has_legal_move(p)) return p.in_check() ? GameStatus::checkmate : GameStatus::stalemate;
  if (is_bare_material(p)) return GameStatus::bare_material;
  const int times = occurrences(p, earlier);
  if (times >= 5) return GameStatus::fivefold;
  if (p.halfmove_clock() >= 150) return GameStatus::seventy_five_moves;
  if (times >= 3) return GameStatus::threefold;
  if (p.halfmove_clock() >= 100) return GameStatus::fifty_moves;
  return GameStatus::open;
}

}  // namespace kairos::rules
