// From a Setup, which may be nonsense, to a Position: every test of what makes a position legal.
//
// Each test looks at one thing and adds its faults to one list, so that a user who typed a position
// hears of all that is wrong at once. Tests of check need exactly one king a side and are left out
// otherwise. What cannot be told from the position alone (whether the game could have led here) is
// judged only by counts: men, pawns, and men promoted beyond the pawns that are gone.
// Example: a board with 9 white pawns and Black's king attacked, White to move, gives
// too_many_pieces and opponent_in_check. Covered by tests/rules/setup_test.cpp.
#include "kairos/rules/setup.hpp"

#include <algorithm>
#include <string>

#include "kairos/base/text.hpp"
#include "kairos/rules/attacks.hpp"
#include "kairos/rules/position.hpp"

#include "mover.hpp"

namespace kairos::rules {

namespace {

using base::Code;

constexpr int counter_limit = 9999;  // far beyond any game; above it a counter is a typing error

// FIDE Laws, 3.8.2: king and rook on their original squares.
struct CastlingHome {
  CastlingRight right;
  Piece king;
  Square king_home;
  Piece rook;
  Square rook_home;
};
constexpr std::array<CastlingHome, 4> castling_homes{{
    {white_short, white_king, e1, white_rook, h1},
    {white_long, white_king, e1, white_rook, a1},
    {black_short, black_king, e8, black_rook, h8},
    {black_long, black_king, e8, black_rook, a8},
}};

std::string name_of(Color c) {
  return c == white ? "White" : "Black";
}

// A Setup has no sets of its own; this is not a place that needs to be fast.
Bitboard squares_of(const Setup& setup, Piece man) {
  Bitboard set = 0;
  for (int s = 0; s < square_count; ++s) {
    const auto square = static_cast<Square>(s);
    if (setup.board[square] == man) set |= bit(square);
  }
  return set;
}

std::string list_of(Bitboard squares) {
  std::string text;
  while (squares != 0) {
    if (!text.empty()) text += ' ';
    text += to_string(take_first(squares));
  }
  return text;
}

// The men of `by` that attack `target`.
Bitboard attackers(const Setup& setup, Square target, Color by) {
  const Bitboard occupied = ~squares_of(setup, no_piece);
  Bitboard found = 0;
  for (int n = 0; n < square_count; ++n) {
    const auto s = static_cast<Square>(n);
    const Piece man = setup.board[s];
    if (man == no_piece || color_of(man) != by) continue;
    const Bitboard reach =
        type_of(man) == pawn ? pawn_attacks(by, s) : attacks_of(type_of(man), s, occupied);
    if (contains(reach, target)) found |= bit(s);
  }
  return found;
}

// Collects the faults, in the order of the tests in `faults`.
class Examination {
 public:
  explicit Examination(const Setup& setup) : setup_(setup) {}

  base::Faults faults() && {
    counters();
    for (const Color c : {white, black}) kings(c);
    pawns();
    for (const Color c : {white, black}) men(c);
    castling();
    en_passant();
    if (one_king_each_) checks();
    return std::move(faults_);
  }

 private:
  void add(Code code, std::string detail) { faults_.push_back({code, std::move(detail), {}}); }

  int number_of(Color c, PieceType t) const { return count(squares_of(setup_, make_piece(c, t))); }

  void counters() {
    if (setup_.halfmove_clock < 0 || setup_.halfmove_clock > counter_limit) {
      add(Code::fen_counter, "halfmove clock " + base::number(setup_.halfmove_clock));
    }
    if (setup_.fullmove_number < 1 || setup_.fullmove_number > counter_limit) {
      add(Code::fen_counter, "move number " + base::number(setup_.fullmove_number));
    }
  }

  // Later tests ask where the kings are; without exactly one each they cannot be run.
  void kings(Color c) {
    const int kings = number_of(c, king);
    if (kings == 1) return;
    one_king_each_ = false;
    add(Code::king_count,
        name_of(c) + (kings == 0 ? " has no king" : " has " + base::number(kings) + " kings"));
  }

  void pawns() {
    const Bitboard misplaced =
        (squares_of(setup_, white_pawn) | squares_of(setup_, black_pawn)) & (rank_1 | rank_8);
    if (misplaced != 0) add(Code::pawn_on_last_rank, list_of(misplaced));
  }

  // Men beyond the first set can only come from promotion, and each such took a pawn.
  void men(Color c) {
    const int pawns = number_of(c, pawn);
    const int promoted = std::max(0, number_of(c, knight) - 2) +
                         std::max(0, number_of(c, bishop) - 2) +
                         std::max(0, number_of(c, rook) - 2) + std::max(0, number_of(c, queen) - 1);
    if (pawns > 8) {
      add(Code::too_many_pieces, name_of(c) + " has " + base::number(pawns) + " pawns");
    } else if (promoted > 8 - pawns) {
      add(Code::too_many_pieces, name_of(c) + " has " + base::number(promoted) +
                                     " promoted men beside " + base::number(pawns) + " pawns");
    }
  }

  // Named by their FEN letters.
  void castling() {
    const int impossible = setup_.castling & ~possible_castling(setup_);
    if (impossible == 0) return;
    std::string letters;
    for (std::size_t n = 0; n < 4; ++n) {
      if ((impossible >> n & 1) != 0) letters += "KQkq"[n];
    }
    add(Code::castling_right_impossible, letters);
  }

  void en_passant() {
    if (setup_.en_passant != no_square && !en_passant_is_possible(setup_)) {
      add(Code::en_passant_impossible, to_string(setup_.en_passant));
    }
  }

  // The side that has just moved cannot have left its king attacked, nor can one move give more
  // than two checks.
  void checks() {
    const Color us = setup_.side_to_move;
    const Square own = first(squares_of(setup_, make_piece(us, king)));
    const Square other = first(squares_of(setup_, make_piece(~us, king)));
    const Bitboard attacking = attackers(setup_, other, us), checking = attackers(setup_, own, ~us);
    if (attacking != 0) {
      add(Code::opponent_in_check, name_of(us) + " is to move and attacks the king on " +
                                       to_string(other) + " from " + list_of(attacking));
    }
    if (count(checking) > 2) add(Code::too_many_checkers, "from " + list_of(checking));
  }

  const Setup& setup_;
  base::Faults faults_;
  bool one_king_each_ = true;
};

}  // namespace

std::uint8_t possible_castling(const Setup& setup) {
  std::uint8_t rights = no_castling;
  for (const CastlingHome& home : castling_homes) {
    if ((setup.castling & home.right) != 0 && setup.board[home.king_home] == home.king &&
        setup.board[home.rook_home] == home.rook) {
      rights |= home.right;
    }
  }
  return rights;
}

// The double step leaves the square it passed and the one it came from empty, and the pawn beyond.
bool en_passant_is_possible(const Setup& setup) {
  const Square target = setup.en_passant;
  const Color mover = ~setup.side_to_move;
  if (target >= no_square || rank_seen_by(mover, target) != 2) return false;
  const int step = pawn_step(mover);
  return setup.board[target] == no_piece && setup.board[target - step] == no_piece &&
         setup.board[target + step] == make_piece(mover, pawn);
}

base::Faults faults_of(const Setup& setup) {
  return Examination(setup).faults();
}

// The only place where a Position comes from anything but a Position. Rights and en passant are
// known to be possible here; whether a pawn may take is asked once the men stand.
base::Result<Position> make_position(const Setup& setup) {
  base::Faults faults = faults_of(setup);
  if (!faults.empty()) return faults;
  Position p;
  p.board_.fill(no_piece);
  for (int n = 0; n < square_count; ++n) {
    const auto s = static_cast<Square>(n);
    if (setup.board[s] != no_piece) Mover::put(p, setup.board[s], s);
  }
  p.side_ = setup.side_to_move;
  p.castling_ = setup.castling;
  p.halfmove_clock_ = static_cast<std::uint16_t>(setup.halfmove_clock);
  p.fullmove_number_ = static_cast<std::uint16_t>(setup.fullmove_number);
  const Square target = setup.en_passant;
  if (target != no_square && en_passant_is_legal(p, p.side_, target)) {
    p.en_passant_ = target;
  }
  p.key_ ^= keys.castling[p.castling_] ^ keys.en_passant[p.en_passant_] ^
            (p.side_ == black ? keys.black_to_move : 0);
  return p;
}

}  // namespace kairos::rules
