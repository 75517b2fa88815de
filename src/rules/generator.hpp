// The one generator of legal moves, for lists and for counts.
//
// Legal by construction: `PinsAndChecks` (pins_and_checks.hpp) says where the king may not go,
// which men are pinned and how a check can be met, and each man's targets are cut down to that. En
// passant, where two men leave their squares at once, is tested by itself.
//
// A Sink takes the moves as sets:
//   man(from, targets)                the moves of one man
//   piece_moves(men, occupied, targets)     those of all unpinned knights and sliders
//   pawns(targets, step)              pawn moves, each from target - step
//   promotions(targets, step)         the same, onto the last rank
//   en_passant(from, to), castling(from, to)
// so that counting them needs no walk over the moves.
#pragma once

#include "kairos/rules/movegen.hpp"

#include "piece_sets.hpp"
#include "pins_and_checks.hpp"

namespace kairos::rules {

template <Color us, Moves sort, typename Sink>
class Generator {
 public:
  [[gnu::always_inline]] Generator(const Position& position, Sink& sink)
      : p_(position), sink_(sink), r_(position) {}

  [[gnu::always_inline]] void run() {
    const Bitboard targets = wanted_targets();
    sink_.man(r_.king_square, king_attacks(r_.king_square) & targets & ~r_.attacked);
    if (more_than_one(r_.checkers)) return;
    if (sort != Moves::noisy && r_.checkers == 0 && p_.castling() != no_castling) castlings();
    pushes();
    if constexpr (sort != Moves::quiet) {
      captures<up<us> - 1>();
      captures<up<us> + 1>();
      if (p_.en_passant() != no_square) en_passants();
    }
    const Bitboard pins = r_.straight_pins | r_.diagonal_pins;
    if ((pins & p_.pieces(us)) != 0) pinned_sliders(targets & r_.answers);
    sink_.piece_moves(piece_sets_of(p_, p_.pieces(us) & ~pins), p_.occupied(),
                      targets & r_.answers);
  }

 private:
  // Of men other than pawns.
  [[gnu::always_inline]] Bitboard wanted_targets() const {
    if (sort == Moves::noisy) return p_.pieces(~us);
    return sort == Moves::quiet ? ~p_.occupied() : ~p_.pieces(us);
  }

  // A pinned slider may go along the line of its pin if that is its way of going.
  void pinned_sliders(Bitboard targets) {
    const PieceSets own = piece_sets_of(p_, p_.pieces(us));
    for (Bitboard men = own.diagonal & r_.diagonal_pins; men != 0;) {
      const Square from = take_first(men);
      sink_.man(from, bishop_attacks(from, p_.occupied()) & r_.diagonal_pins & targets);
    }
    for (Bitboard men = own.straight & r_.straight_pins; men != 0;) {
      const Square from = take_first(men);
      sink_.man(from, rook_attacks(from, p_.occupied()) & r_.straight_pins & targets);
    }
  }

  // Not in check, that is known; the squares of rook and b-file may be attacked (FIDE Laws, 3.8.2).
  [[gnu::always_inline]] void castlings() {
    constexpr int home = us == white ? 0 : 56;
    constexpr Bitboard short_path = (bit(f1) | bit(g1)) << home;
    constexpr Bitboard long_path = (bit(b1) | bit(c1) | bit(d1)) << home;
    constexpr Bitboard long_steps = (bit(c1) | bit(d1)) << home;
    constexpr int short_right = us == white ? white_short : black_short;
    constexpr int long_right = us == white ? white_long : black_long;
    const Bitboard occupied = p_.occupied();
    if ((p_.castling() & short_right) != 0 && ((occupied | r_.attacked) & short_path) == 0) {
      sink_.castling(e1 + home, g1 + home);
    }
    if ((p_.castling() & long_right) != 0 && (occupied & long_path) == 0 &&
        (r_.attacked & long_steps) == 0) {
      sink_.castling(e1 + home, c1 + home);
    }
  }

  // A pawn pinned on a diagonal cannot step; one pinned on a file can, and its target then lies on
  // the pin, where one pinned on a rank has none.
  [[gnu::always_inline]] void pushes() {
    constexpr Bitboard third = rank_mask(us == white ? 2 : 5);
    const Bitboard empty = ~p_.occupied();
    const Bitboard pawns = p_.pieces(us, pawn) & ~r_.diagonal_pins;
    const Bitboard pinned = pawns & r_.straight_pins;
    const Bitboard ahead =
        shifted<up<us>>(pawns ^ pinned) | (shifted<up<us>>(pinned) & r_.straight_pins);
    const Bitboard once = ahead & empty;
    const Bitboard twice = shifted<up<us>>(once & third) & empty;
    emit<up<us>, sort != Moves::noisy>(once & r_.answers);
    if (sort != Moves::noisy) sink_.pawns(twice & r_.answers, 2 * up<us>);
  }

  // In one of the two directions; a pinned pawn may only take along its pin.
  template <int step>
  [[gnu::always_inline]] void captures() {
    const Bitboard pawns = p_.pieces(us, pawn) & ~r_.straight_pins;
    const Bitboard pinned = pawns & r_.diagonal_pins;
    const Bitboard reach =
        shifted<step>(pawns ^ pinned) | (shifted<step>(pinned) & r_.diagonal_pins);
    emit<step, true>(reach & p_.pieces(~us) & r_.answers);
  }

  // Promotions are noisy, whether they take or not.
  template <int step, bool with_plain>
  [[gnu::always_inline]] void emit(Bitboard reached) {
    constexpr Bitboard last = us == white ? rank_8 : rank_1;
    if (with_plain) sink_.pawns(reached & ~last, step);
    if (sort != Moves::quiet && (reached & last) != 0) sink_.promotions(reached & last, step);
  }

  // The position keeps the square only when some pawn may take; there may be another that may not.
  void en_passants() {
    const Square to = p_.en_passant();
    for (Bitboard men = pawn_attacks(~us, to) & p_.pieces(us, pawn); men != 0;) {
      const Square from = take_first(men);
      if (en_passant_is_safe(p_, us, from, to)) sink_.en_passant(from, to);
    }
  }

  const Position& p_;
  Sink& sink_;
  const PinsAndChecks<us> r_;
};

// Counts sets, never walks them.
class CountSink {
 public:
  void man(Square, Bitboard targets) { total_ += count(targets); }
  void piece_moves(const PieceSets& men, Bitboard occupied, Bitboard targets) {
    total_ += count_moves(men, occupied, targets);
  }
  void pawns(Bitboard targets, int) { total_ += count(targets); }
  void promotions(Bitboard targets, int) { total_ += 4 * count(targets); }
  void en_passant(Square, Square) { ++total_; }
  void castling(Square, Square) { ++total_; }
  [[nodiscard]] int total() const { return total_; }

 private:
  int total_ = 0;
};

// Writes moves to a list; promotions queen first.
class ListSink {
 public:
  explicit ListSink(MoveList& list) : list_(list) {}
  void man(Square from, Bitboard targets) {
    while (targets != 0) list_.push(Move::normal(from, take_first(targets)));
  }
  void piece_moves(const PieceSets& men, Bitboard occupied, Bitboard targets) {
    for_each_man(men, occupied, [&](Square from, Bitboard reach) { man(from, reach & targets); });
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
