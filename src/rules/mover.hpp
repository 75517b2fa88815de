// How a move changes a position, inline so that the counter can play with the colour known.
//
// A capture and a move to an empty square are the same work: the target is cleared in all eight
// sets, then the man is moved in its own two. So nothing branches on what was taken; only pawns'
// special moves and castling take a detour.
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
    const Square from = m.from(), to = m.to();
    const Piece man = p.board_[from], taken = p.board_[to];
    for (Bitboard& set : p.sets_) set &= ~bit(to);
    const Bitboard change = bit(from) | bit(to);
    p.sets_[type_of(man)] ^= change;
    p.sets_[Position::color_sets + us] ^= change;
    p.board_[to] = man;
    p.board_[from] = no_piece;

    // All keys in one expression: "nothing" has the key 0 (keys.hpp), so there is no case to tell.
    const int kept = p.castling_ & rights_kept[from] & rights_kept[to];
    p.key_ ^= keys.black_to_move ^ keys.man[man][from] ^ keys.man[man][to] ^ keys.man[taken][to] ^
              keys.en_passant[p.en_passant_] ^ keys.castling[p.castling_] ^
              keys.castling[static_cast<std::size_t>(kept)];
    p.castling_ = static_cast<std::uint8_t>(kept);
    p.side_ = ~us;
    p.en_passant_ = no_square;
    p.fullmove_number_ = static_cast<std::uint16_t>(p.fullmove_number_ + us);
    p.halfmove_clock_ = static_cast<std::uint16_t>(p.halfmove_clock_ + 1);
    if (taken != no_piece) p.halfmove_clock_ = 0;
    if (type_of(man) == pawn) {
      p.halfmove_clock_ = 0;
      finish_pawn_move<us>(p, m);
    } else if (m.is_castling()) {
      move_rook<us>(p, to);
    }
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
  // What a pawn move does beyond moving the pawn. The square passed over is kept only for a legal
  // capture, which is why playing a double step may have to look for one.
  template <Color us>
  static void finish_pawn_move(Position& p, Move m) {
    const Square from = m.from(), to = m.to();
    if ((from ^ to) == 16) {
      const Square target = from + up<us>;
      if ((pawn_attacks(us, target) & p.pieces(~us, pawn)) != 0 &&
          en_passant_is_legal(p, ~us, target)) {
        p.en_passant_ = target;
        p.key_ ^= keys.en_passant[target];
      }
    } else if (m.is_promotion()) {
      remove(p, make_piece(us, pawn), to);
      put(p, make_piece(us, m.promoted()), to);
    } else if (m.is_en_passant()) {
      remove(p, make_piece(~us, pawn), to - up<us>);
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
