// Why a move text is refused, in words for the person who wrote it.
//
// Runs only after a refusal, so it may look at everything again and at leisure: what the text
// means, then the first thing that stands in its way, from the plainest (there is no such man) to
// the least plain (the king would be in check). Example: "Bg5" with a pawn on d2 gives "the way
// from c1 to g5 is blocked"; "Nd2" with two knights that can go there gives "knights on b1 and f3
// can go to d2". Covered by tests/rules/san_test.cpp, "Refusals".
#include "kairos/rules/attacks.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "legality.hpp"
#include "san_read.hpp"

namespace kairos::rules {

namespace {

using Kind = MoveText::Kind;

std::string name_of(Color c) {
  return c == white ? "White" : "Black";
}

std::string name_of(PieceType t) {
  switch (t) {
    case pawn:
      return "pawn";
    case knight:
      return "knight";
    case bishop:
      return "bishop";
    case rook:
      return "rook";
    case queen:
      return "queen";
    case king:
      return "king";
    case no_piece_type:
      break;
  }
  return "man";
}

std::string why_not_castling(const Position& p, bool is_short) {
  switch (castling_state(p, castling_target(p, is_short))) {
    case Castling::legal:
      break;
    case Castling::no_right:
      return name_of(p.side_to_move()) + " may not castle on this side any more";
    case Castling::blocked:
      return "a man stands between king and rook";
    case Castling::in_check:
      return "the king is in check and may not castle";
    case Castling::through_check:
      return "the king would cross or reach an attacked square";
  }
  return {};
}

// The man would be free to go, but for the king.
std::string king_reason(const Position& p) {
  return p.in_check() ? "leaves the king in check" : "exposes the king to check";
}

// "White has no knight on the b-file": with as much of the start as the text says.
std::string missing_man(const Position& p, const MoveText& text) {
  std::string reason = name_of(p.side_to_move()) + " has no " + name_of(text.man);
  const bool file_said = text.from_file >= 0, rank_said = text.from_rank >= 0;
  if (file_said && rank_said) {
    return reason + " on " + to_string(square_at(text.from_file, text.from_rank));
  }
  if (file_said) return reason + " on the " + static_cast<char>('a' + text.from_file) + "-file";
  if (rank_said) return reason + " on rank " + static_cast<char>('1' + text.from_rank);
  return reason;
}

std::string occupied_by_own(const Position& p, Square s) {
  return name_of(p.side_to_move()) + " has a man on " + to_string(s) + " already";
}

// In the order in which a person would look: the target, the pawn, the promotion, the king.
std::string why_not_pawn(const Position& p, const MoveText& text) {
  const Color us = p.side_to_move();
  const std::string target = to_string(text.to);
  if (contains(p.pieces(us), text.to)) return occupied_by_own(p, text.to);
  const Square from = pawn_start(p, text);
  if (from == no_square || !contains(allowed_starts(text), from)) {
    const bool takes = text.from_file >= 0 && text.from_file != file_of(text.to);
    if (!takes)
      return p.is_empty(text.to) ? "no pawn can step to " + target : target + " is occupied";
    if (p.is_empty(text.to) && text.to != p.en_passant())
      return "there is nothing to take on " + target;
    return "no pawn on the " + std::string(1, static_cast<char>('a' + text.from_file)) +
           "-file can take on " + target;
  }
  const bool is_last = contains(rank_1 | rank_8, text.to);
  if (is_last && text.promoted == no_piece_type) return "what the pawn becomes is not said";
  if (!is_last && text.promoted != no_piece_type) return "a pawn promotes on the last rank only";
  return king_reason(p);
}

// The king's own safety comes last; that it would be in check is only of interest where it can go.
std::string why_not_king(const Position& p, const MoveText& text) {
  const Color us = p.side_to_move();
  const Square from = p.king_square(us), home = king_home(us);
  if (!contains(allowed_starts(text), from)) return missing_man(p, text);
  if (contains(p.pieces(us), text.to)) return occupied_by_own(p, text.to);
  if (from == home && (text.to == home + 2 || text.to == home - 2)) {
    return why_not_castling(p, text.to > home);
  }
  if (text.promoted != no_piece_type) return "only a pawn promotes";
  if (!contains(king_attacks(from), text.to)) {
    return "the king on " + to_string(from) + " cannot go to " + to_string(text.to);
  }
  return "the king would be in check on " + to_string(text.to);
}

// "b1", "b1 and f3", "b1, f3 and h3".
std::string list_of(Bitboard squares) {
  std::string list = to_string(take_first(squares));
  while (squares != 0) {
    const std::string next = to_string(take_first(squares));
    list += (squares == 0 ? " and " : ", ") + next;
  }
  return list;
}

// Each test asks more of the men that the text may mean: to be there, to go that way at all, to
// have a free way, to be free of the king. The first that none of them passes is the reason; when
// all are passed there are too many of them.
std::string why_not_piece(const Position& p, const MoveText& text) {
  const Bitboard named = p.pieces(p.side_to_move(), text.man) & allowed_starts(text);
  if (named == 0) return missing_man(p, text);
  if (contains(p.pieces(p.side_to_move()), text.to)) return occupied_by_own(p, text.to);
  if (text.promoted != no_piece_type) return "only a pawn promotes";
  const std::string target = to_string(text.to);
  Bitboard aligned = named & attacks_on_empty_board(text.man, text.to);
  if (aligned == 0) {
    return "no " + name_of(text.man) + " on " + list_of(named) + " can go to " + target;
  }
  const Bitboard reaching = aligned & attacks_of(text.man, text.to, p.occupied());
  if (reaching == 0) {
    return "the way from " + to_string(first(aligned)) + " to " + target + " is blocked";
  }
  Bitboard able = 0;
  for (Bitboard rest = reaching; rest != 0;) {
    const Square from = take_first(rest);
    if (king_is_safe_after(p, from, text.to)) able |= bit(from);
  }
  if (able == 0) return king_reason(p);
  return name_of(text.man) + "s on " + list_of(able) + " can go to " + target;
}

std::string why_not_man(const Position& p, MoveText text) {
  if (text.man == no_piece_type) {
    const Square from = square_at(text.from_file, text.from_rank);
    if (!contains(p.pieces(p.side_to_move()), from)) return missing_man(p, text);
    text.man = type_of(p.piece_on(from));
  }
  if (text.man == pawn) return why_not_pawn(p, text);
  if (text.man == king) return why_not_king(p, text);
  return why_not_piece(p, text);
}

}  // namespace

// Reads the text anew by the full reader, which knows all shapes that the quick one knows.
std::string why_not(const Position& p, std::string_view text) {
  if (read_san(p, text).move) return {};
  const MoveText meant = read_move_text(text);
  switch (meant.kind) {
    case Kind::unreadable:
      return "it cannot be read as a move";
    case Kind::man:
      return why_not_man(p, meant);
    case Kind::short_castling:
      return why_not_castling(p, true);
    case Kind::long_castling:
      return why_not_castling(p, false);
    case Kind::null:
      return "the turn cannot be passed in check";
  }
  return {};
}

base::Result<Move> parse_san(const Position& p, std::string_view text) {
  const SanReading reading = read_san(p, text);
  if (reading.move) return reading.move;
  std::string detail = '"' + std::string(text) + '"';
  if (reading.problem != base::Code::not_a_move) detail += ", " + why_not(p, text);
  return base::Fault{reading.problem, std::move(detail), {}};
}

}  // namespace kairos::rules
