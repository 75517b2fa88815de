// From what a text says to the move it means.
//
// Plain moves, nearly all, are read by san_quick.cpp; here is the rest, and all that is wrong.
//
// Reading does not generate moves. The target square is looked at from the other end: the men of
// the named kind that attack it are the squares that a man of that kind would attack from there.
// What the text says about file and rank cuts them down, and what is left is tested for legality,
// nearly always one man. Example: "Nd2" with knights on b1 and f3 and the f3 knight pinned finds
// two candidates, tests both, and keeps b1. Covered by tests/rules/san_test.cpp against
// tests/oracles/rules_naive.cpp, which tries all legal moves.
#include "san_read.hpp"

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "legality.hpp"
#include "san_quick.hpp"

namespace kairos::rules {

Square castling_target(const Position& p, bool is_short) {
  const Square home = king_home(p.side_to_move());
  return is_short ? home + 2 : home - 2;
}

// Looks backward from the target, so that the pawn need not be searched for: of two pawns on a file
// only the nearer can step, and the capturing one is named by its file.
Square pawn_start(const Position& p, const MoveText& text) {
  const Color us = p.side_to_move();
  const Bitboard pawns = p.pieces(us, pawn);
  const int up = pawn_step(us);
  if (rank_seen_by(us, text.to) == 0) return no_square;
  const Square behind = text.to - up;
  if (text.from_file >= 0 && text.from_file != file_of(text.to)) {
    const Square from = square_at(text.from_file, rank_of(behind));
    const bool takes = contains(p.pieces(~us), text.to) || text.to == p.en_passant();
    return takes && contains(pawns & pawn_attacks(~us, text.to), from) ? from : no_square;
  }
  if (!p.is_empty(text.to)) return no_square;
  if (contains(pawns, behind)) return behind;
  const bool may_be_double = rank_seen_by(us, text.to) == 3 && p.is_empty(behind);
  return may_be_double && contains(pawns, behind - up) ? behind - up : no_square;
}

namespace {

using base::Code;
using Kind = MoveText::Kind;

constexpr SanReading refused(Code problem) {
  return {Move{}, problem};
}

SanReading resolve_castling(const Position& p, bool is_short) {
  const Square to = castling_target(p, is_short);
  if (castling_state(p, to) != Castling::legal) return refused(Code::illegal_move);
  return {Move::castling(p.king_square(p.side_to_move()), to)};
}

// There is one king, so the text cannot be ambiguous; two squares from home it means castling.
SanReading resolve_king(const Position& p, const MoveText& text) {
  const Color us = p.side_to_move();
  const Square from = p.king_square(us), home = king_home(us);
  if (!contains(allowed_starts(text), from)) return refused(Code::no_such_piece);
  if (from == home && (text.to == home + 2 || text.to == home - 2)) {
    return resolve_castling(p, text.to > home);
  }
  const Bitboard reach = king_attacks(from) & ~p.pieces(us);
  if (text.promoted != no_piece_type || !contains(reach, text.to) || !king_may_step(p, text.to)) {
    return refused(Code::illegal_move);
  }
  return {Move::normal(from, text.to)};
}

// A promotion must be said on the last rank and nowhere else: taking a queen for granted would hide
// a damaged text.
SanReading resolve_pawn(const Position& p, const MoveText& text) {
  const Square from = pawn_start(p, text), to = text.to;
  if (from == no_square || !contains(allowed_starts(text), from)) {
    return refused(Code::illegal_move);
  }
  const bool promotes = contains(rank_1 | rank_8, to);
  if (promotes != (text.promoted != no_piece_type)) return refused(Code::illegal_move);
  Move move = Move::normal(from, to);
  if (promotes) move = Move::promotion(from, to, text.promoted);
  if (file_of(from) != file_of(to) && p.is_empty(to)) {
    move = Move::en_passant(from, to);
    return is_legal(p, move) ? SanReading{move} : refused(Code::illegal_move);
  }
  return king_is_safe_after(p, from, to) ? SanReading{move} : refused(Code::illegal_move);
}

// "Ambiguous" means several men that can legally go there; a pinned one does not count.
SanReading resolve_piece(const Position& p, const MoveText& text) {
  const Color us = p.side_to_move();
  if (text.promoted != no_piece_type || contains(p.pieces(us), text.to)) {
    return refused(Code::illegal_move);
  }
  const Bitboard named = p.pieces(us, text.man) & allowed_starts(text);
  if (named == 0) return refused(Code::no_such_piece);
  Bitboard candidates = named & attacks_on_empty_board(text.man, text.to);
  Square found = no_square;
  while (candidates != 0) {
    const Square from = take_first(candidates);
    if ((between(from, text.to) & p.occupied()) != 0) continue;
    if (!king_is_safe_after(p, from, text.to)) continue;
    if (found != no_square) return refused(Code::ambiguous_move);
    found = from;
  }
  return found == no_square ? refused(Code::illegal_move)
                            : SanReading{Move::normal(found, text.to)};
}

// A move without a letter but with its start ("g1f3") takes the kind of man from the board.
SanReading resolve_man(const Position& p, MoveText text) {
  if (text.man == no_piece_type) {
    const Square from = square_at(text.from_file, text.from_rank);
    if (!contains(p.pieces(p.side_to_move()), from)) return refused(Code::no_such_piece);
    text.man = type_of(p.piece_on(from));
  }
  if (text.man == pawn) return resolve_pawn(p, text);
  if (text.man == king) return resolve_king(p, text);
  return resolve_piece(p, text);
}

SanReading resolve(const Position& p, const MoveText& text) {
  switch (text.kind) {
    case Kind::unreadable:
      return refused(Code::not_a_move);
    case Kind::man:
      return resolve_man(p, text);
    case Kind::short_castling:
      return resolve_castling(p, true);
    case Kind::long_castling:
      return resolve_castling(p, false);
    case Kind::null:
      return p.in_check() ? refused(Code::illegal_move) : SanReading{null_move};
  }
  return refused(Code::not_a_move);
}

}  // namespace

SanReading read_san(const Position& p, std::string_view text) noexcept {
  if (const Move plain = read_plain_move(p, text)) return {plain};  // nearly always
  return resolve(p, read_move_text(text));
}

}  // namespace kairos::rules
