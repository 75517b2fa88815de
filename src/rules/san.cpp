// SAN in and out.
//
// Reading does not generate moves. The target square is looked at from the other end: the men of
// the named kind that attack it are the squares that a man of that kind would attack from there.
// What the text says about file and rank cuts them down, and what is left is tested for legality,
// nearly always one man. Example: "Nd2" with knights on b1 and f3 and the f3 knight pinned finds
// two candidates, tests both, and keeps b1. Covered by tests/rules/san_test.cpp against
// tests/oracles/rules_naive.cpp, which tries all legal moves.
#include "kairos/rules/san.hpp"

#include "kairos/base/text.hpp"
#include "kairos/rules/attacks.hpp"
#include "kairos/rules/movegen.hpp"

#include "legality.hpp"
#include "san_text.hpp"

namespace kairos::rules {

namespace {

using base::Code;
using Kind = MoveText::Kind;

constexpr SanReading refused(Code problem) {
  return {Move{}, problem};
}

// The squares that the text allows as the start.
Bitboard allowed_starts(const MoveText& text) {
  Bitboard set = ~Bitboard{0};
  if (text.from_file >= 0) set &= file_mask(text.from_file);
  if (text.from_rank >= 0) set &= rank_mask(text.from_rank);
  return set;
}

Square castling_target(const Position& p, bool is_short) {
  const Square home = p.side_to_move() == white ? e1 : e8;
  return is_short ? home + 2 : home - 2;
}

SanReading resolve_castling(const Position& p, bool is_short) {
  const Square to = castling_target(p, is_short);
  if (castling_state(p, to) != Castling::legal) return refused(Code::illegal_move);
  return {Move::castling(p.king_square(p.side_to_move()), to)};
}

SanReading resolve_king(const Position& p, const MoveText& text) {
  const Color us = p.side_to_move();
  const Square from = p.king_square(us), home = us == white ? e1 : e8;
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

// Where the pawn comes from that the text means, or no_square: behind the target for a step, beside
// that for a capture.
Square pawn_start(const Position& p, const MoveText& text) {
  const Color us = p.side_to_move();
  const Bitboard pawns = p.pieces(us, pawn);
  const int up = us == white ? 8 : -8;
  if (rank_of(text.to) == (us == white ? 0 : 7)) return no_square;
  const Square behind = text.to - up;
  if (text.from_file >= 0 && text.from_file != file_of(text.to)) {
    const Square from = square_at(text.from_file, rank_of(behind));
    const bool takes = contains(p.pieces(~us), text.to) || text.to == p.en_passant();
    return takes && contains(pawns & pawn_attacks(~us, text.to), from) ? from : no_square;
  }
  if (!p.is_empty(text.to)) return no_square;
  if (contains(pawns, behind)) return behind;
  const bool may_be_double = rank_of(text.to) == (us == white ? 3 : 4) && p.is_empty(behind);
  return may_be_double && contains(pawns, behind - up) ? behind - up : no_square;
}

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

SanReading resolve_piece(const Position& p, const MoveText& text) {
  const Color us = p.side_to_move();
  if (text.promoted != no_piece_type || contains(p.pieces(us), text.to)) {
    return refused(Code::illegal_move);
  }
  const Bitboard named = p.pieces(us, text.man) & allowed_starts(text);
  if (named == 0) return refused(Code::no_such_piece);
  Bitboard candidates = named & attacks_of(text.man, text.to, p.occupied());
  Square found = no_square;
  while (candidates != 0) {
    const Square from = take_first(candidates);
    if (!king_is_safe_after(p, from, text.to)) continue;
    if (found != no_square) return refused(Code::ambiguous_move);
    found = from;
  }
  return found == no_square ? refused(Code::illegal_move)
                            : SanReading{Move::normal(found, text.to)};
}

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

// The shortest addition that tells this man from all others of its kind that can legally go there.
std::string disambiguation(const Position& p, Move m, PieceType t) {
  const Square from = m.from(), to = m.to();
  Bitboard rivals = 0;
  Bitboard others = attacks_of(t, to, p.occupied()) & p.pieces(p.side_to_move(), t) & ~bit(from);
  while (others != 0) {
    const Square other = take_first(others);
    if (king_is_safe_after(p, other, to)) rivals |= bit(other);
  }
  if (rivals == 0) return {};
  const std::string name = to_string(from);
  if ((rivals & file_mask(file_of(from))) == 0) return name.substr(0, 1);
  if ((rivals & rank_mask(rank_of(from))) == 0) return name.substr(1, 1);
  return name;
}

std::string check_mark(const Position& p, Move m) {
  if (!p.gives_check(m)) return {};
  Position after = p;
  after.play(m);
  return has_legal_move(after) ? "+" : "#";
}

std::string san_without_mark(const Position& p, Move m) {
  if (m.is_castling()) return file_of(m.to()) == 6 ? "O-O" : "O-O-O";
  const PieceType t = type_of(p.piece_on(m.from()));
  std::string text;
  if (t != pawn) {
    text += letter_of(make_piece(white, t));
    if (t != king) text += disambiguation(p, m, t);
  }
  if (p.is_capture(m)) {
    if (t == pawn) text += to_string(m.from())[0];
    text += 'x';
  }
  text += to_string(m.to());
  if (m.is_promotion()) {
    text += '=';
    text += letter_of(make_piece(white, m.promoted()));
  }
  return text;
}

}  // namespace

SanReading read_san(const Position& p, std::string_view text) noexcept {
  return resolve(p, read_move_text(text));
}

base::Result<Move> parse_san(const Position& p, std::string_view text) {
  const SanReading reading = read_san(p, text);
  if (reading.move) return reading.move;
  return base::Fault{reading.problem, std::string(text), {}};
}

std::string to_san(const Position& p, Move m) {
  if (m == null_move) return "--";
  return san_without_mark(p, m) + check_mark(p, m);
}

std::vector<std::string> to_san(Position p, std::span<const Move> line) {
  std::vector<std::string> texts;
  texts.reserve(line.size());
  for (const Move m : line) {
    texts.push_back(to_san(p, m));
    p.play(m);
  }
  return texts;
}

std::string to_numbered_san(Position p, std::span<const Move> line) {
  std::string text;
  for (const Move m : line) {
    const bool is_first = text.empty();
    if (!is_first) text += ' ';
    if (p.side_to_move() == white) {
      text += base::number(p.fullmove_number()) + ". ";
    } else if (is_first) {
      text += base::number(p.fullmove_number()) + "... ";
    }
    text += to_san(p, m);
    p.play(m);
  }
  return text;
}

}  // namespace kairos::rules
