#include "endings.hpp"

#include <algorithm>

#include "evaluator.hpp"
#include "geometry.hpp"
#include "kpk.hpp"

// Which endings are known, and why:
//   a bare king against mating material   drive it to the edge, kings together; with bishop and
//                                         knight to a corner of the bishop's colour
//   K+P v K                               exact, from the table of kpk.hpp
//   no pawns and less than a rook ahead   mostly drawn: a factor, not a verdict
//   rook pawn and wrong bishop            drawn when the king reaches the corner
//   bishops of opposite colours           alone with pawns: the more drawn the fewer pawns
//   rook and pawn v rook                  drawn with the king in front of the pawn
//   queen v a rook or bishop pawn         on the seventh, its king beside it: mostly drawn by the
//                                         stalemate in the corner
// The tests take their positions from published endgame theory.

namespace kairos::search {

using rules::bit;
using rules::Bitboard;
using rules::Color;
using rules::Position;
using rules::Square;

namespace {

// Sure wins stand well above any material count, well below mates.
constexpr Score known_win = 5000;
constexpr Score nearly_drawn = 30;

int pieces_value(const Position& p, Color c) {
  return 3 * rules::count(p.pieces(c, rules::knight) | p.pieces(c, rules::bishop)) +
         5 * rules::count(p.pieces(c, rules::rook)) + 9 * rules::count(p.pieces(c, rules::queen));
}

int edge_distance(Square s) {
  const int rank = std::min(rules::rank_of(s), 7 - rules::rank_of(s));
  return std::min(files_from_edge(s), rank);
}

int corner_distance(Square s, bool dark) {
  return dark ? std::min(distance(s, rules::a1), distance(s, rules::h8))
              : std::min(distance(s, rules::a8), distance(s, rules::h1));
}

bool only_bishops_of_one_colour(const Position& p, Color c) {
  const Bitboard bishops = p.pieces(c, rules::bishop);
  return (bishops & rules::dark_squares) == 0 || (bishops & ~rules::dark_squares) == 0;
}

// Whether the pieces alone (no pawns) can mate a bare king by force.
bool can_mate(const Position& p, Color c) {
  if ((p.pieces(c, rules::rook) | p.pieces(c, rules::queen)) != 0) return true;
  const Bitboard bishops = p.pieces(c, rules::bishop);
  const int knights = rules::count(p.pieces(c, rules::knight));
  if (bishops != 0 && knights > 0) return true;
  if (knights >= 3) return true;
  return bishops != 0 && !only_bishops_of_one_colour(p, c);
}

Score against_bare_king(const Position& p, Color strong) {
  const Square winner = p.king_square(strong);
  const Square loser = p.king_square(~strong);
  const Bitboard bishops = p.pieces(strong, rules::bishop);
  const bool bishop_and_knight = pieces_value(p, strong) == 6 && rules::count(bishops) == 1;
  int drive = 0;
  if (bishop_and_knight) {
    // Not only to the edge: to a corner that the bishop can attack.
    drive = 40 * (7 - corner_distance(loser, (bishops & rules::dark_squares) != 0)) +
            8 * (3 - edge_distance(loser));
  } else {
    drive = 30 * (3 - edge_distance(loser)) +
            6 * (7 - std::min(corner_distance(loser, true), corner_distance(loser, false)));
  }
  return known_win + 100 * std::min(pieces_value(p, strong), 40) + drive +
         10 * (7 - distance(winner, loser));
}

Score king_and_pawn(const Position& p, Color strong) {
  const Square pawn = rules::first(p.pieces(strong, rules::pawn));
  if (!pawn_wins(strong, p.king_square(strong), pawn, p.king_square(~strong), p.side_to_move())) {
    return draw_score;
  }
  return least_exact_win + 60 * rules::rank_seen_by(strong, pawn);
}

// A lone queen against a lone rook or bishop pawn on the seventh, its king beside it or about to
// be, or between a bishop pawn and the corner (Black: Ka1, pawn c2; taking it is stalemate). Where
// the queen's king is near enough to win, the win is so short that the search finds it.
bool held_by_seventh_pawn(const Position& p, Color strong) {
  const Bitboard pawns = p.pieces(~strong, rules::pawn);
  if (rules::count(p.occupied()) != 4 || pawns == 0 || p.pieces(strong, rules::queen) == 0) {
    return false;
  }
  const Square pawn = rules::first(pawns);
  const int file = files_from_edge(pawn);
  const Square king = p.king_square(~strong);
  const bool same_wing = (rules::file_of(king) < 4) == (rules::file_of(pawn) < 4);
  const bool in_corner = file == 2 && same_wing && files_from_edge(king) < file;
  const int reach = p.side_to_move() == strong && !in_corner ? 1 : 2;
  return rules::rank_seen_by(~strong, pawn) == 6 && (file == 0 || file == 2) &&
         distance(king, pawn) <= reach;
}

}  // namespace

std::optional<Score> known_ending(const Position& p) {
  if (rules::count(p.occupied()) > 4 && rules::more_than_one(p.pieces(rules::white)) &&
      rules::more_than_one(p.pieces(rules::black))) {
    return std::nullopt;
  }
  for (const Color strong : {rules::white, rules::black}) {
    const int sign = strong == rules::white ? 1 : -1;
    if (held_by_seventh_pawn(p, strong)) return sign * nearly_drawn;
    if (rules::more_than_one(p.pieces(~strong))) continue;
    if (p.pieces(strong, rules::pawn) == 0) {
      if (!can_mate(p, strong)) return draw_score;
      return sign * against_bare_king(p, strong);
    }
    if (rules::count(p.occupied()) == 3) return sign * king_and_pawn(p, strong);
  }
  return std::nullopt;
}

namespace {

// Bishop and rook pawns whose queening corner the bishop does not see, the king being there first.
bool wrong_bishop(const Position& p, Color strong) {
  const Bitboard pawns = p.pieces(strong, rules::pawn);
  const Bitboard a_pawns = pawns & rules::file_a;
  if (pawns == 0 || (pawns != a_pawns && pawns != (pawns & rules::file_h))) return false;
  const Bitboard bishops = p.pieces(strong, rules::bishop);
  if (p.pieces(strong) != (pawns | bishops | p.pieces(strong, rules::king))) return false;
  const Square corner = relative(strong, a_pawns != 0 ? rules::a8 : rules::h8);
  const Bitboard seen = rules::is_dark(corner) ? rules::dark_squares : ~rules::dark_squares;
  if ((bishops & seen) != 0) return false;
  const int defender = distance(p.king_square(~strong), corner);
  return defender <= 1 || defender < distance(p.king_square(strong), corner) - 1;
}

bool opposite_bishops(const Position& p) {
  const Bitboard white = p.pieces(rules::white, rules::bishop);
  const Bitboard black = p.pieces(rules::black, rules::bishop);
  return rules::count(white) == 1 && rules::count(black) == 1 &&
         ((white & rules::dark_squares) != 0) != ((black & rules::dark_squares) != 0);
}

// Rook and pawn against rook, the defender's king on the pawn's road.
int rook_and_pawn_scale(const Position& p, Color strong) {
  const Square pawn = rules::first(p.pieces(strong, rules::pawn));
  const Square king = p.king_square(~strong);
  const int rank = rules::rank_seen_by(strong, pawn);
  const int file_gap = std::abs(rules::file_of(king) - rules::file_of(pawn));
  const bool in_front = rules::rank_seen_by(strong, king) > rank && file_gap <= 1;
  const bool supported = distance(p.king_square(strong), pawn) <= 1 && rank >= 5;
  if (in_front && file_gap == 0 && !(supported && rank == 6)) return 12;
  if (in_front) return supported ? 32 : 20;
  return full_scale;
}

int few_men_scale(const Position& p, Color strong, int ours, int theirs) {
  const Bitboard pawns = p.pieces(strong, rules::pawn);
  if (pawns == 0) {
    // Without pawns less than a rook's advantage rarely wins; a bare minor never does.
    if (ours <= 3) return 0;
    return ours - theirs <= 3 ? 10 : full_scale;
  }
  if (!rules::more_than_one(pawns)) {
    // The defender can give a piece for the last pawn.
    const bool rooks = p.pieces(rules::rook) != 0 && ours == 5 && theirs == 5;
    if (rooks && p.pieces(~strong, rules::pawn) == 0) return rook_and_pawn_scale(p, strong);
    if (ours <= 3 && theirs >= 3) return 16;
    if (ours - theirs <= 2 && theirs >= 3) return 40;
  }
  return full_scale;
}

}  // namespace

int endgame_scale(const Position& p, Color strong) {
  const int ours = pieces_value(p, strong);
  const int theirs = pieces_value(p, ~strong);
  if (wrong_bishop(p, strong)) return 0;
  const int scale = few_men_scale(p, strong, ours, theirs);
  if (ours != 3 || theirs != 3 || !opposite_bishops(p)) return scale;
  return std::min(scale, 16 + 4 * rules::count(p.pieces(strong, rules::pawn)));
}

}  // namespace kairos::search
