// How a move looks on the board, to somebody who has not begun to calculate: which man, where to,
// what it takes, what it attacks and leaves. All of it is read from the position before the move
// and the one after it; nothing is searched.
//
// A man is in danger when a man worth less attacks it, or any man does and none guards it. Example:
// a knight that a pawn attacks; a bishop that a rook attacks and nobody guards. Pins and what a
// whole exchange comes to are not seen here: the glance sees them. Tests:
// tests/people/terms_test.cpp.
#include <algorithm>
#include <cstdlib>

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/checks.hpp"

#include "terms.hpp"

namespace kairos::people {

namespace {

using rules::Bitboard;
using rules::Color;
using rules::Move;
using rules::PieceType;
using rules::Position;
using rules::Square;

// In pawns (common practice); the king is worth more than any attacker.
constexpr std::array<double, 7> worth = {1, 3, 3, 5, 9, 100, 0};
constexpr double queen_worth = 9;
constexpr double board_length = 7;

constexpr std::size_t index_of(std::string_view name) {
  for (std::size_t i = 0; i < terms.size(); ++i) {
    if (terms[i].name == name) return i;
  }
  return terms.size();  // an index out of range: the compiler refuses it below
}

// Writes a term by its name, looked up by the compiler.
template <std::size_t length>
struct Name {
  constexpr Name(const char (&text)[length]) { std::copy_n(text, length, characters); }
  char characters[length]{};
};
template <Name name>
double& of(Row& row) {
  constexpr std::size_t at = index_of(name.characters);
  static_assert(at < term_count, "no such term");
  return row[at];
}

int steps_between(Square a, Square b) {
  return std::max(std::abs(rules::file_of(a) - rules::file_of(b)),
                  std::abs(rules::rank_of(a) - rules::rank_of(b)));
}

// Steps to the nearest of the four central squares, 0 .. 3.
int from_centre(Square s) {
  const auto away = [](int line) { return line < 4 ? 3 - line : line - 4; };
  return std::max(away(rules::file_of(s)), away(rules::rank_of(s)));
}

bool is_in_danger(const Position& p, Square s) {
  const PieceType man = rules::type_of(p.piece_on(s));
  const Color side = rules::color_of(p.piece_on(s));
  const Bitboard attackers = rules::attackers_to(p, s, p.occupied());
  Bitboard enemies = attackers & p.pieces(~side);
  if (enemies == 0 || man == rules::king) return false;
  if ((attackers & p.pieces(side)) == 0) return true;
  while (enemies != 0) {
    const PieceType enemy = rules::type_of(p.piece_on(rules::take_first(enemies)));
    if (worth[enemy] < worth[man]) return true;
  }
  return false;
}

// The worth of the greatest man of a side in danger, one square left out.
double greatest_in_danger(const Position& p, Color side, Square but = rules::no_square) {
  double greatest = 0;
  for (Bitboard men = p.pieces(side) & ~p.pieces(rules::king); men != 0;) {
    const Square s = rules::take_first(men);
    const double value = worth[rules::type_of(p.piece_on(s))];
    if (s != but && value > greatest && is_in_danger(p, s)) greatest = value;
  }
  return greatest;
}

// What is the same for all moves of the position.
class Board {
 public:
  Board(const Position& position, const Before& before)
      : p_(position),
        before_(before),
        us_(position.side_to_move()),
        checks_(position),
        danger_to_others_(greatest_in_danger(position, ~us_)) {}

  void add(Move move, Row& row) const {
    const Position after = p_.after(move);
    const PieceType man = rules::type_of(p_.piece_on(move.from()));
    add_man(move, man, row);
    if (p_.is_capture(move)) add_capture(move, man, row);
    of<"checks">(row) = checks_.given_by(move);
    add_way(move, man, row);
    if (man == rules::pawn) add_pawn(move, row);
    add_history(move, row);
    add_danger(move, man, after, row);
  }

 private:
  void add_man(Move move, PieceType man, Row& row) const {
    if (man != rules::king) row[index_of("pawn") + man] = 1;
    of<"king among queens">(row) =
        man == rules::king && !move.is_castling() && p_.pieces(~us_, rules::queen) != 0;
    of<"castles">(row) = move.is_castling();
    if (!move.is_promotion()) return;
    of<"promotes to a queen">(row) = move.promoted() == rules::queen;
    of<"promotes to less">(row) = move.promoted() != rules::queen;
  }

  void add_capture(Move move, PieceType man, Row& row) const {
    const PieceType taken =
        move.is_en_passant() ? rules::pawn : rules::type_of(p_.piece_on(move.to()));
    const Bitboard guards =
        rules::attackers_to(p_, move.to(), p_.occupied() ^ rules::bit(move.from())) &
        p_.pieces(~us_);
    of<"takes">(row) = 1;
    of<"value taken">(row) = worth[taken] / queen_worth;
    of<"takes more than it is worth">(row) = worth[taken] > worth[man];
    of<"takes what is not guarded">(row) = guards == 0;
    of<"takes its like">(row) = guards != 0 && worth[taken] == worth[man];
    if (!before_.last || before_.last.to() != move.to()) return;
    of<"takes back">(row) = before_.last_took;
    of<"takes the man just moved">(row) = !before_.last_took;
  }

  void add_way(Move move, PieceType man, Row& row) const {
    const Square from = move.from(), to = move.to();
    const int forward = rules::rank_seen_by(us_, to) - rules::rank_seen_by(us_, from);
    const bool is_piece = man != rules::pawn && !move.is_castling();
    const Square enemy_king = p_.king_square(~us_);
    of<"steps forward">(row) = std::max(0, forward) / board_length;
    of<"piece goes back">(row) = is_piece && forward < 0;
    of<"piece goes sideways">(row) = is_piece && forward == 0;
    of<"long way">(row) = is_piece && steps_between(from, to) > 3;
    of<"towards the centre">(row) = is_piece ? (from_centre(from) - from_centre(to)) / 3.0 : 0;
    of<"towards the enemy king">(row) =
        (steps_between(from, enemy_king) - steps_between(to, enemy_king)) / board_length;
    if (before_.last) {
      of<"distance from the last move">(row) = steps_between(to, before_.last.to()) / board_length;
    }
    const bool is_minor = man == rules::knight || man == rules::bishop;
    of<"develops">(row) =
        is_minor && rules::rank_seen_by(us_, from) == 0 && rules::rank_seen_by(us_, to) > 0;
    const Bitboard own_pawns = p_.pieces(us_, rules::pawn);
    const auto is_open = [&](Square s) {
      return (own_pawns & rules::file_mask(rules::file_of(s))) == 0;
    };
    of<"rook to an open file">(row) = man == rules::rook && is_open(to) && !is_open(from);
    of<"piece to the edge">(row) = is_minor && from_centre(to) == 3 && from_centre(from) < 3;
  }

  void add_pawn(Move move, Row& row) const {
    const Square from = move.from(), to = move.to(), own_king = p_.king_square(us_);
    const int file = rules::file_of(from);
    of<"two steps">(row) = std::abs(rules::rank_of(to) - rules::rank_of(from)) == 2;
    of<"central pawn">(row) = file == 3 || file == 4;
    of<"edge pawn">(row) = file == 0 || file == 7;
    of<"pawn before the king">(row) = std::abs(rules::file_of(own_king) - file) <= 1 &&
                                      rules::rank_seen_by(us_, own_king) <= 1 &&
                                      p_.pieces(~us_, rules::queen) != 0;
    of<"passed pawn">(row) = rules::is_passed(p_, from);
    const Bitboard pieces = p_.pieces(~us_) & ~p_.pieces(rules::pawn) & ~p_.pieces(rules::king);
    of<"pawn attacks a piece">(row) = (rules::pawn_attacks(us_, to) & pieces) != 0;
  }

  void add_history(Move move, Row& row) const {
    if (!before_.own_last || before_.own_last.to() != move.from()) return;
    of<"the man moved last">(row) = 1;
    of<"back where it came from">(row) = before_.own_last.from() == move.to();
  }

  void add_danger(Move move, PieceType man, const Position& after, Row& row) const {
    const Square to = move.to();
    if (man != rules::king) {
      of<"leaves danger">(row) = is_in_danger(p_, move.from()) ? worth[man] / queen_worth : 0;
      of<"goes into danger">(row) = is_in_danger(after, to) ? worth[man] / queen_worth : 0;
    }
    of<"another man in danger">(row) = greatest_in_danger(after, us_, to) / queen_worth;
    of<"new danger to others">(row) =
        std::max(0.0, greatest_in_danger(after, ~us_) - danger_to_others_) / queen_worth;
    const Bitboard likes =
        after.pieces(~us_, man) & rules::attackers_to(after, to, after.occupied());
    of<"offers an exchange">(row) = man != rules::pawn && !p_.is_capture(move) && likes != 0;
    of<"on a square a pawn attacks">(row) =
        man != rules::pawn && man != rules::king &&
        (rules::pawn_attacks(us_, to) & p_.pieces(~us_, rules::pawn)) != 0;
  }

  const Position& p_;
  const Before& before_;
  Color us_;
  rules::Checks checks_;
  double danger_to_others_;
};

}  // namespace

void add_board_terms(const Position& position, const Before& before, std::span<const Judged> judged,
                     std::vector<Row>& rows) {
  const Board board(position, before);
  for (std::size_t i = 0; i < judged.size(); ++i) board.add(judged[i].move, rows[i]);
}

}  // namespace kairos::people
