// The one generator of legal moves, for lists and for counts.
//
// Legal by construction: `Restraints` works out which squares the enemy attacks, which of our men
// are pinned and along what, and where a check can be met; each man's targets are then cut down to
// what is legal. Two facts carry it:
//   - The king is taken off the board before the enemy's attacks are counted, so it cannot flee
//     along the line of a check.
//   - All pins along ranks and files may share one set, and all along diagonals another. A man
//   pinned
//     on one line through the king can reach no square of a second such line by a move of the same
//     kind: that line is either the same one, with the king between, or parallel to its way.
// En passant, where two men leave their squares at once, is tested by itself.
//
// A Sink takes the moves as sets: `man(from, targets)`, `pawns(targets, step)` with from = to -
// step, `promotions(targets, step)`, `en_passant(from, to)`, `castling(from, to)`.
#pragma once

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/position.hpp"

#include "mover.hpp"

namespace kairos::rules {

template <Color us>
constexpr int up = us == white ? 8 : -8;

// A set moved by a step of a pawn's move or capture.
template <int step>
constexpr Bitboard shifted(Bitboard set) {
  if constexpr (step == 7 || step == -9) set &= ~file_a;
  if constexpr (step == 9 || step == -7) set &= ~file_h;
  if constexpr (step > 0)
    return set << step;
  else
    return set >> -step;
}

// Every square that `side` attacks.
template <Color side>
Bitboard attacked_by(const Position& p, Bitboard occupied) {
  const Bitboard pawns = p.pieces(side, pawn);
  Bitboard set = shifted<up<side> + 1>(pawns) | shifted<up<side> - 1>(pawns) |
                 king_attacks(p.king_square(side));
  for (Bitboard men = p.pieces(side, knight); men != 0;) set |= knight_attacks(take_first(men));
  const Bitboard queens = p.pieces(queen);
  for (Bitboard men = (p.pieces(bishop) | queens) & p.pieces(side); men != 0;) {
    set |= bishop_attacks(take_first(men), occupied);
  }
  for (Bitboard men = (p.pieces(rook) | queens) & p.pieces(side); men != 0;) {
    set |= rook_attacks(take_first(men), occupied);
  }
  return set;
}

template <Color us>
struct Restraints {
  Square king_square;
  Bitboard attacked;  // by the enemy, our king lifted off
  Bitboard checkers = 0;
  Bitboard answers = ~Bitboard{0};  // where a man other than the king may go in view of a check
  Bitboard straight_pins = 0;       // between king and pinning man, that man included
  Bitboard diagonal_pins = 0;

  explicit Restraints(const Position& p)
      : king_square(p.king_square(us)),
        attacked(attacked_by<~us>(p, p.occupied() ^ bit(king_square))) {
    const Bitboard enemies = p.pieces(~us), queens = p.pieces(queen);
    scan(p, bishop_attacks(king_square, enemies) & enemies & (p.pieces(bishop) | queens),
         diagonal_pins);
    scan(p, rook_attacks(king_square, enemies) & enemies & (p.pieces(rook) | queens),
         straight_pins);
    if (!contains(attacked, king_square)) return;
    const Bitboard leapers = enemies & ((knight_attacks(king_square) & p.pieces(knight)) |
                                        (pawn_attacks(us, king_square) & p.pieces(pawn)));
    checkers |= leapers;
    answers = checkers;
    if (!more_than_one(checkers)) answers |= between(king_square, first(checkers));
  }

  // Sorts enemy men that look at the king through our men into checks and pins.
  void scan(const Position& p, Bitboard snipers, Bitboard& pins) {
    while (snipers != 0) {
      const Square s = take_first(snipers);
      const Bitboard path = between(king_square, s);
      const Bitboard blockers = path & p.pieces(us);
      if (blockers == 0) {
        checkers |= bit(s);
      } else if (!more_than_one(blockers)) {
        pins |= path | bit(s);
      }
    }
  }
};

template <Color us, Moves sort, typename Sink>
struct Generator {
  const Position& p;
  Sink& sink;
  const Restraints<us> r;
  Bitboard targets = ~p.pieces(us);  // of men other than pawns

  Generator(const Position& position, Sink& receiver) : p(position), sink(receiver), r(position) {
    if constexpr (sort == Moves::noisy) targets = p.pieces(~us);
    if constexpr (sort == Moves::quiet) targets = ~p.occupied();
  }

  void run() {
    sink.man(r.king_square, king_attacks(r.king_square) & targets & ~r.attacked);
    if (more_than_one(r.checkers)) return;
    if (sort != Moves::noisy && r.checkers == 0 && p.castling() != no_castling) castling_moves();
    pawn_moves();
    targets &= r.answers;
    const Bitboard pins = r.straight_pins | r.diagonal_pins;
    for (Bitboard men = p.pieces(us, knight) & ~pins; men != 0;) {
      const Square from = take_first(men);
      sink.man(from, knight_attacks(from) & targets);
    }
    slider_moves();
  }

  void slider_moves() {
    const Bitboard occupied = p.occupied(), pins = r.straight_pins | r.diagonal_pins;
    const Bitboard queens = p.pieces(queen);
    for (Bitboard men = (p.pieces(bishop) | queens) & p.pieces(us) & ~r.straight_pins; men != 0;) {
      const Square from = take_first(men);
      Bitboard reach = bishop_attacks(from, occupied) & targets;
      if (contains(r.diagonal_pins, from)) reach &= r.diagonal_pins;
      sink.man(from, reach);
    }
    for (Bitboard men = (p.pieces(rook) | queens) & p.pieces(us) & ~r.diagonal_pins; men != 0;) {
      const Square from = take_first(men);
      Bitboard reach = rook_attacks(from, occupied) & targets;
      if (contains(r.straight_pins, from)) reach &= r.straight_pins;
      sink.man(from, reach);
    }
    static_cast<void>(pins);
  }

  void castling_moves() {
    constexpr int home = us == white ? 0 : 56;
    constexpr Square king_home = e1 + home;
    constexpr Bitboard short_path = (bit(f1) | bit(g1)) << home;
    constexpr Bitboard long_path = (bit(b1) | bit(c1) | bit(d1)) << home;
    constexpr Bitboard long_safe = (bit(c1) | bit(d1)) << home;
    constexpr int short_right = us == white ? white_short : black_short;
    constexpr int long_right = us == white ? white_long : black_long;
    const Bitboard occupied = p.occupied();
    if ((p.castling() & short_right) != 0 && ((occupied | r.attacked) & short_path) == 0) {
      sink.castling(king_home, g1 + home);
    }
    if ((p.castling() & long_right) != 0 && (occupied & long_path) == 0 &&
        (r.attacked & long_safe) == 0) {
      sink.castling(king_home, c1 + home);
    }
  }

  void pawn_moves() {
    const Bitboard pawns = p.pieces(us, pawn);
    pushes(pawns & ~r.diagonal_pins);
    if constexpr (sort != Moves::quiet) {
      captures<up<us> - 1>(pawns & ~r.straight_pins);
      captures<up<us> + 1>(pawns & ~r.straight_pins);
      if (p.en_passant() != no_square) en_passant_moves();
    }
  }

  void pushes(Bitboard pawns) {
    constexpr Bitboard third = rank_mask(us == white ? 2 : 5);
    const Bitboard empty = ~p.occupied(), pinned = pawns & r.straight_pins;
    const Bitboard once =
        (shifted<up<us>>(pawns ^ pinned) | (shifted<up<us>>(pinned) & r.straight_pins)) & empty;
    const Bitboard twice = shifted<up<us>>(once & third) & empty & r.answers;
    emit<up<us>>(once & r.answers, sort != Moves::noisy, sort != Moves::quiet);
    if (sort != Moves::noisy) sink.pawns(twice, 2 * up<us>);
  }

  template <int step>
  void captures(Bitboard pawns) {
    const Bitboard pinned = pawns & r.diagonal_pins;
    const Bitboard reach =
        shifted<step>(pawns ^ pinned) | (shifted<step>(pinned) & r.diagonal_pins);
    emit<step>(reach & p.pieces(~us) & r.answers, true, true);
  }

  template <int step>
  void emit(Bitboard reached, bool plain, bool promoting) {
    constexpr Bitboard last = us == white ? rank_8 : rank_1;
    if (plain) sink.pawns(reached & ~last, step);
    if (promoting && (reached & last) != 0) sink.promotions(reached & last, step);
  }

  void en_passant_moves() {
    const Square to = p.en_passant();
    for (Bitboard men = pawn_attacks(~us, to) & p.pieces(us, pawn); men != 0;) {
      const Square from = take_first(men);
      if (Mover::en_passant_is_safe<us>(p, from, to)) sink.en_passant(from, to);
    }
  }
};

// Counts moves; sets are never walked.
class CountSink {
 public:
  void man(Square, Bitboard targets) { total_ += count(targets); }
  void pawns(Bitboard targets, int) { total_ += count(targets); }
  void promotions(Bitboard targets, int) { total_ += 4 * count(targets); }
  void en_passant(Square, Square) { ++total_; }
  void castling(Square, Square) { ++total_; }
  [[nodiscard]] int total() const { return total_; }

 private:
  int total_ = 0;
};

class ListSink {
 public:
  explicit ListSink(MoveList& list) : list_(list) {}
  void man(Square from, Bitboard targets) {
    while (targets != 0) list_.push(Move::normal(from, take_first(targets)));
  }
  void pawns(Bitboard targets, int step) {
    while (targets != 0) {
      const Square to = take_first(targets);
      list_.push(Move::normal(to - step, to));
    }
  }
  void promotions(Bitboard targets, int step) {
    while (targets != 0) {
      const Square to = take_first(targets);
      for (const PieceType t : {queen, rook, bishop, knight}) {
        list_.push(Move::promotion(to - step, to, t));
      }
    }
  }
  void en_passant(Square from, Square to) { list_.push(Move::en_passant(from, to)); }
  void castling(Square from, Square to) { list_.push(Move::castling(from, to)); }

 private:
  MoveList& list_;
};

template <Color us>
int count_moves(const Position& p) {
  CountSink sink;
  Generator<us, Moves::all, CountSink>(p, sink).run();
  return sink.total();
}

template <Color us>
void list_moves(const Position& p, MoveList& list) {
  ListSink sink(list);
  Generator<us, Moves::all, ListSink>(p, sink).run();
}

}  // namespace kairos::rules
