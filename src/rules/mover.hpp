// How a move changes a position, inline so that the counter can play with the colour known.
//
// A capture and a move to an empty square are the same work: the target is cleared in two sets,
// that of its man's type and the opponent's, then the man is moved in its own two. So nothing
// branches on what was taken; only pawns' special moves and castling take a detour.
#pragma once

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/position.hpp"

#include "keys.hpp"
#include "legality.hpp"

namespace kairos::rules {

// Rights that survive a move from or to a square: all but on the home squares of kings and rooks.
constexpr std::array<std::uint8_t, square_count> make_rights_kept() {
  std::array<std::uint8_t, square_count> kept{};
  kept.fill(all_castling);
  kept[a1] = all_castling ^ white_long;
  kept[e1] = all_castling ^ white_long ^ white_short;
  kept[h1] = all_castling ^ white_short;
  kept[a8] = all_castling ^ black_long;
  kept[e8] = all_castling ^ black_long ^ black_short;
  kept[h8] = all_castling ^ black_short;
  return kept;
}
inline constexpr std::array<std::uint8_t, square_count> rights_kept = make_rights_kept();

template <Color us>
inline constexpr int up = pawn_step(us);

struct Mover {
  // Plays a legal move of `us`, the side to move; not the null move.
  template <Color us>
  static void play(Position& p, Move m) {
    const PieceType man = type_of(p.board_[m.from()]);
    move_man<us>(p, m.from(), m.to(), man);
    if (man == pawn) {
      finish_pawn_move<us>(p, m);
    } else if (m.is_castling()) {
      move_rook<us>(p, m.to());
    }
  }

  // The same for a move that neither castles nor promotes nor takes en passant, of a man of a kind
  // that is known: nothing waits for what stands on the board.
  template <Color us>
  static void play_plain(Position& p, Square from, Square to, PieceType type) {
    move_man<us>(p, from, to, type);
    if (type == pawn) finish_step<us>(p, from, to);
  }

  // The null move.
  static void pass(Position& p) {
    p.key_ ^= keys.black_to_move ^ keys.en_passant[p.en_passant_];
    p.en_passant_ = no_square;
    p.fullmove_number_ = static_cast<std::uint16_t>(p.fullmove_number_ + p.side_);
    p.halfmove_clock_ = static_cast<std::uint16_t>(p.halfmove_clock_ + 1);
    p.side_ = ~p.side_;
  }

  // On an empty square.
  static void put(Position& p, Piece man, Square s) {
    toggle(p, man, s);
    p.board_[s] = man;
  }
  static void remove(Position& p, Piece man, Square s) {
    toggle(p, man, s);
    p.board_[s] = no_piece;
  }

 private:
  template <Color us>
  [[gnu::always_inline]] static void move_man(Position& p, Square from, Square to, PieceType type) {
    const Piece man = make_piece(us, type), taken = p.board_[to];
    // The type of "nothing" has the place of White's men, and none of these is there either.
    p.sets_[type_of(taken)] &= ~bit(to);
    p.sets_[Position::color_sets + ~us] &= ~bit(to);
    const Bitboard change = bit(from) | bit(to);
    p.sets_[type] ^= change;
    p.sets_[Position::color_sets + us] ^= change;
    p.board_[to] = man;
    p.board_[from] = no_piece;

    // "Nothing" has the key 0 (keys.hpp). Rights and the en passant square seldom change.
    p.key_ ^= keys.black_to_move ^ keys.man[man][from] ^ keys.man[man][to] ^ keys.man[taken][to];
    if (const int kept = p.castling_ & rights_kept[from] & rights_kept[to]; kept != p.castling_) {
      p.key_ ^= keys.castling[p.castling_] ^ keys.castling[static_cast<std::size_t>(kept)];
      p.castling_ = static_cast<std::uint8_t>(kept);
    }
    if (p.en_passant_ != no_square) {
      p.key_ ^= keys.en_passant[p.en_passant_];
      p.en_passant_ = no_square;
    }
    p.side_ = ~us;
    p.fullmove_number_ = static_cast<std::uint16_t>(p.fullmove_number_ + us);
    p.halfmove_clock_ = static_cast<std::uint16_t>(p.halfmove_clock_ + 1);
    if (taken != no_piece) p.halfmove_clock_ = 0;
  }

  // What a pawn move does beyond moving the pawn. The square passed over is kept only for a legal
  // capture, which is why playing a double step may have to look for one.
  template <Color us>
  static void finish_step(Position& p, Square from, Square to) {
    p.halfmove_clock_ = 0;
    if ((from ^ to) != 16) return;
    const Square target = from + up<us>;
    if ((pawn_attacks(us, target) & p.pieces(~us, pawn)) != 0 &&
        en_passant_is_legal(p, ~us, target)) {
      p.en_passant_ = target;
      p.key_ ^= keys.en_passant[target];
    }
  }
  template <Color us>
  static void finish_pawn_move(Position& p, Move m) {
    finish_step<us>(p, m.from(), m.to());
    if (m.is_promotion()) {
      remove(p, make_piece(us, pawn), m.to());
      put(p, make_piece(us, m.promoted()), m.to());
    } else if (m.is_en_passant()) {
      remove(p, make_piece(~us, pawn), m.to() - up<us>);
    }
  }

  // The king has moved already; the rook jumps over it.
  template <Color us>
  static void move_rook(Position& p, Square king_to) {
    constexpr Piece own_rook = make_piece(us, rook);
    const bool is_short = file_of(king_to) == 6;
    remove(p, own_rook, is_short ? king_to + 1 : king_to - 2);
    put(p, own_rook, is_short ? king_to - 1 : king_to + 1);
  }

  static void toggle(Position& p, Piece man, Square s) {
    p.sets_[type_of(man)] ^= bit(s);
    p.sets_[Position::color_sets + color_of(man)] ^= bit(s);
    p.key_ ^= keys.man[man][s];
  }
};

}  // namespace kairos::rules
