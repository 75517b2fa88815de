// Motifs about guards: a man that kept something and no longer does.
//
//   removing the guard: the key takes a man that guarded another piece (for the name: and is not
//     itself the greater gain), or drives it off with a man worth less, and the next move takes
//     that piece, which before the key could not be taken with profit.
//   deflection: the key is a check, or a sacrifice that is taken; the man that answers it guarded
//     the square on which the next move takes a piece or mates, and does not guard it from where it
//     has gone; or so the move after a check in between, with profit. Or the sacrifice is refused,
//     because whatever takes it guards such a square; unless the line bears out a fork instead.
//   overloaded piece: the same, where the answer takes on a square that the man guarded too (the
//     key was a capture or landed under its guard and it had to take).
//   decoy: the key gives up a pawn or more; a king or queen takes it, and the next move exploits
//     where it then stands: check to the king there, which takes a piece, or leads to mate or the
//     win of a piece; or an attack on the queen there, which falls on that square.
//   in-between move: the move before took a man of ours, and it could be taken back at once; the
//     key does something else first, a check or a threat that is answered, and then takes back.
//   trapped piece: the key attacks a piece of theirs (or leaves it attacked) that cannot be taken
//     back from anywhere it can go: each of its moves lets it be taken with profit; and it falls. A
//     man pinned to its king is pinned, not trapped. One of the solver's next moves may do it too.
#include <algorithm>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"

#include "motifs_wider.hpp"

namespace kairos::study {

using rules::Bitboard;
using rules::Position;
using rules::Square;

namespace {

constexpr std::size_t last_trap = 6;        // the index of the solver's move that may shut it in
constexpr search::Score lure_worth = -100;  // a pawn at least is given

bool mates_or_takes(const PlayedLine& s, std::size_t i) {
  return s.takes_piece(i) || (i < s.size() && rules::is_checkmate(s.after(i)));
}

bool guards(const Position& p, Square guard, Square target) {
  return rules::contains(attacks_from(p, guard), target);
}

bool is_legal_with_profit(const Position& p, rules::Move m) {
  return rules::is_legal(p, m) && p.is_capture(m) && search::exchange_value(p, m) >= profit;
}

// The man that answers the key guarded where the solver's move of that index strikes, and from
// where it has gone does not.
bool is_unguarded_by_answer(const PlayedLine& s, std::size_t strike) {
  const Square guard = s.move(1).from(), gone = s.move(1).to(), target = s.move(strike).to();
  if (target == gone || s.move(1).is_castling()) return false;
  return guards(s.after(0), guard, target) && !guards(s.at(strike), gone, target);
}

// The man that answers the key goes away from guarding where move 2 strikes.
bool guard_is_drawn_away(const PlayedLine& s) {
  return s.size() >= 3 && mates_or_takes(s, 2) && is_unguarded_by_answer(s, 2);
}

// The same with a check before the stroke, which wins a piece that has stood there all along.
bool guard_is_drawn_away_before_check(const PlayedLine& s) {
  if (s.size() < 5 || !s.at(2).gives_check(s.move(2)) || !s.takes_piece(4)) return false;
  const Square gone = s.move(1).to(), target = s.move(4).to();
  return s.at(4).piece_on(gone) == s.at(2).piece_on(gone) &&
         s.at(4).piece_on(target) == s.at(0).piece_on(target) && is_unguarded_by_answer(s, 4) &&
         !is_legal_with_profit(s.at(0), s.move(4)) && is_legal_with_profit(s.at(4), s.move(4));
}

// Taking the key's man so leaves a square unguarded on which the solver then mates, or wins what it
// could not win before.
bool would_be_drawn_away(const PlayedLine& s, rules::Move take) {
  const Position next = s.after(0).after(take);
  rules::MoveList strokes;
  rules::legal_moves(next, strokes);
  return std::any_of(strokes.begin(), strokes.end(), [&](rules::Move stroke) {
    const Square target = stroke.to();
    if (target == take.to() || !guards(s.after(0), take.from(), target)) return false;
    if (guards(next, take.to(), target)) return false;
    if (rules::is_checkmate(next.after(stroke))) return true;
    return is_piece(next, target) && is_legal_with_profit(next, stroke) &&
           !is_legal_with_profit(s.at(0), stroke);
  });
}

// The key is a sacrifice that nobody may take: whoever takes it is drawn away.
bool is_refused_deflection(const PlayedLine& s) {
  if (s.size() < 2 || s.move(1).to() == s.key().to()) return false;
  if (s.after(0).in_check() || !is_sacrifice(s.at(0), s.key())) return false;
  rules::MoveList replies;
  rules::legal_moves(s.after(0), replies, rules::Moves::noisy);
  bool any = false;
  for (const rules::Move reply : replies) {
    if (reply.to() != s.key().to()) continue;
    if (!would_be_drawn_away(s, reply)) return false;
    any = true;
  }
  return any;
}

bool answer_takes_key(const PlayedLine& s) {
  return s.size() >= 2 && s.move(1).to() == s.key().to();
}

bool is_forcing(const PlayedLine& s) {
  return s.at(0).gives_check(s.key()) || (answer_takes_key(s) && is_sacrifice(s.at(0), s.key()));
}

// What move 2 takes stood there before the key, when it could not be taken with profit.
bool target_is_freed(const PlayedLine& s) {
  const Square target = s.move(2).to();
  return s.at(0).piece_on(target) == s.at(2).piece_on(target) &&
         !is_legal_with_profit(s.at(0), s.move(2)) && is_legal_with_profit(s.at(2), s.move(2));
}

// Whether some move by the man on `square` escapes being taken with profit.
bool can_escape(const Position& p, Square square) {
  rules::MoveList moves;
  rules::legal_moves(p, moves);
  for (const rules::Move m : moves) {
    if (m.from() != square) continue;
    const Position next = p.after(m);
    const int regained = p.is_capture(m) ? worth(p, m.to()) : 0;
    rules::MoveList takes;
    rules::legal_moves(next, takes, rules::Moves::noisy);
    bool lost = false;
    for (const rules::Move t : takes) {
      lost = lost || (t.to() == m.to() && search::exchange_value(next, t) - regained >= profit);
    }
    if (!lost) return true;
  }
  return false;
}

// Whether the man on the square is taken there by the solver's move of that index or a later one,
// before it leaves.
bool falls(const PlayedLine& s, Square square, std::size_t from) {
  const rules::Piece man = s.at(from).piece_on(square);
  for (std::size_t i = from; i < s.size(); ++i) {
    if (s.at(i).piece_on(square) != man) return false;
    if (i % 2 == 0 && s.move(i).to() == square) return true;
  }
  return false;
}

std::vector<Square> trapped_by(const PlayedLine& s, std::size_t at) {
  const Position& p = s.after(at);
  if (p.in_check()) return {};
  const Bitboard slow = p.pieces(rules::pawn) | p.pieces(rules::king);
  const Bitboard pinned = rules::lone_blockers(p, p.king_square(s.theirs()), s.mine());
  for (Bitboard pieces = p.pieces(s.theirs()) & ~slow & ~pinned; pieces != 0;) {
    const Square square = rules::take_first(pieces);
    const bool moves_away = s.move(at + 1).from() == square;
    const Square there = moves_away ? s.move(at + 1).to() : square;
    if (!falls(s, there, at + 2) || !hangs(p.after(rules::null_move), square)) continue;
    if (can_escape(p, square)) continue;
    std::vector<Square> squares{square};
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    for (const rules::Move m : moves) {
      if (m.from() == square) squares.push_back(m.to());
    }
    return squares;
  }
  return {};
}

}  // namespace

bool is_removing_the_guard(const PlayedLine& s) {
  if (s.size() < 3 || !s.takes_piece(0) || !s.takes_piece(2)) return false;
  const Square guard = s.key().to(), target = s.move(2).to();
  return target != guard && guards(s.at(0), guard, target) && target_is_freed(s);
}

bool is_guard_removed(const PlayedLine& s) {
  if (s.size() < 3 || !s.takes_piece(2)) return false;
  if (is_removing_the_guard(s)) {
    return search::exchange_value(s.at(0), s.key()) < worth(s.at(0), s.move(2).to());
  }
  const Position& p = s.after(0);
  const Square from = s.key().to(), guard = s.move(1).from();
  return s.move(2).from() != from && !p.in_check() && guards(p, from, guard) &&
         worth(p, from) < worth(p, guard) && is_unguarded_by_answer(s, 2) && target_is_freed(s);
}

bool is_deflection(const PlayedLine& s) {
  return guard_is_drawn_away(s) && is_forcing(s) && !is_overloaded(s);
}

bool is_wider_deflection(const PlayedLine& s) {
  return (is_refused_deflection(s) && !is_fork(s)) ||
         (is_forcing(s) && guard_is_drawn_away_before_check(s));
}

bool is_overloaded(const PlayedLine& s) {
  return guard_is_drawn_away(s) && answer_takes_key(s) && s.at(0).is_capture(s.key()) &&
         s.at(0).piece_on(s.move(2).to()) == s.at(2).piece_on(s.move(2).to());
}

bool is_decoy(const PlayedLine& s) {
  if (s.size() < 3 || !answer_takes_key(s)) return false;
  if (search::exchange_value(s.at(0), s.key()) > lure_worth) return false;
  const Square lured = s.key().to();
  const rules::PieceType type = rules::type_of(s.at(2).piece_on(lured));
  if (type == rules::king) {
    return s.at(2).gives_check(s.move(2)) &&
           (s.ends_in_mate() || s.takes_piece(2) || s.takes_piece(4));
  }
  if (type != rules::queen || s.size() < 5) return false;
  return s.move(2).to() != lured && s.move(4).to() == lured && s.takes_piece(4);
}

bool is_in_between_move(const PlayedLine& s) {
  const Prelude& prelude = s.prelude();
  if (prelude.before == nullptr || !prelude.last || s.size() < 3) return false;
  if (!prelude.before->is_capture(prelude.last)) return false;
  const Square taker = prelude.last.to();
  if (s.key().to() == taker || s.move(2).to() != taker) return false;
  if (s.at(2).piece_on(taker) != s.at(0).piece_on(taker)) return false;
  return is_piece(s.at(0), taker) && hangs(s.at(0), taker);
}

std::vector<Square> trapped_man(const PlayedLine& s) {
  return s.size() < 3 ? std::vector<Square>{} : trapped_by(s, 0);
}

bool is_trapped_piece(const PlayedLine& s) {
  for (std::size_t at = 0; at <= last_trap && at + 2 < s.size(); at += 2) {
    if (!trapped_by(s, at).empty()) return true;
  }
  return false;
}

}  // namespace kairos::study
