#include "kairos/rules/draws.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"

namespace kairos::rules {

std::string_view words(Standing s) {
  switch (s) {
    case Standing::open:
      return "the game goes on";
    case Standing::checkmate:
      return "checkmate";
    case Standing::stalemate:
      return "stalemate";
    case Standing::bare_material:
      return "neither side has the men to mate";
    case Standing::fivefold:
      return "the position has stood five times";
    case Standing::seventy_five_moves:
      return "75 moves without capture or pawn move";
    case Standing::threefold:
      return "the position has stood three times";
    case Standing::fifty_moves:
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
Standing standing(const Position& p, std::span<const Key> earlier) {
  if (!has_legal_move(p)) return p.in_check() ? Standing::checkmate : Standing::stalemate;
  if (is_bare_material(p)) return Standing::bare_material;
  const int times = occurrences(p, earlier);
  if (times >= 5) return Standing::fivefold;
  if (p.halfmove_clock() >= 150) return Standing::seventy_five_moves;
  if (times >= 3) return Standing::threefold;
  if (p.halfmove_clock() >= 100) return Standing::fifty_moves;
  return Standing::open;
}

}  // namespace kairos::rules
