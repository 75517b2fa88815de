// What a move does with men and squares.
//
//   trades: the move takes a piece with one of its kind, and the reply takes back; of a reply only
//     with the piece that it takes next, or queens, or the last rooks. Told of a side that is not
//     worse, and not where the line of the other move trades such men too; `gain`: its balance.
//   offers_trade: the piece that moved stands opposite one of its kind that could take it evenly,
//     and did not before; of a reply only when a pawn ahead at least, or of queens. The other side
//     takes and is taken back; or it could not win the other by taking either, and takes it next
//     and is taken back, or the side is a pawn ahead at least and the reply moves the other man
//     away.
//   guards: the line after the other move takes a man of the side with its first or second move of
//     the other side, where it stands before, and would win it there by exchanges; after this move
//     it would not, and the man that moved guards it, or is it, and it is not lost in the line;
//     or the other move takes a guard from it (means: guard_gone).
//   avoids_check: the reply to the other move is a check that takes something; the same man takes
//     the same in the line of this move, as the reply, and gives no check. The square of the king.
//   sends_back: in the reply, or after a check within `back_plies` of the line, the piece of the
//     move before, no king, goes back to the square that it came from, which costs it a move; not
//     where the score tells of more than a pawn. The
//     squares where it stands and whence it came.
//   comes_in: the move goes to a square that the man of the move before guarded no longer, or along
//     a line that it left (means: square_unguarded, line_opened), takes nothing, no exchange there
//     loses, and where it stood none would have lost.
//   makes_passed: a pawn move makes it a passed pawn, on the fourth rank or beyond, and the line
//     does not take it within `stay_plies`.
//   stops_pawn: a man that is no pawn goes before a passed pawn of the other side on its fifth rank
//     or beyond, with nothing between; it is not taken there, and the line takes the pawn or does
//     not let it come to where the man stood.
//   behind_pawn: a rook goes behind a passed pawn of either side on its fourth rank or beyond, with
//     nothing between, and is there after the reply.
//   open_file: a rook goes to a file without pawns and without a rook or queen of the other side,
//     and within `use_plies` it, or another rook or queen, goes along it beyond the middle.
//   seventh_rank: a rook goes to the seventh rank, with the other king on the last or a pawn of the
//     other side on the seventh, and stays for its next move or takes there.
//   king_comes: without queens, and the move no capture, the king goes on by two ranks at least in
//     `walk_plies`, beginning with one of the first two moves of its side, of its own will at least
//     twice, and is not driven back by more than a rank by the line's end.
#include "places_taken.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/search/settled.hpp"
#include "kairos/study/expectation.hpp"

#include "board_facts.hpp"
#include "means.hpp"
#include "played_line.hpp"

namespace kairos::study {

using rules::Bitboard;
using rules::Move;
using rules::PieceType;
using rules::Position;
using rules::Square;

namespace {

constexpr std::size_t stay_plies = 8, use_plies = 7, walk_plies = 12;
constexpr std::size_t back_plies = 8;

PieceType type_on(const Position& p, Square s) {
  return rules::type_of(p.piece_on(s));
}

bool takes_back_at(const PlayedLine& line, std::size_t i, Square s) {
  return i < line.size() && line.move(i).to() == s;
}

// Whether both sides have the same pieces, knights and bishops being alike: then a balance is one
// of pawns.
bool has_like_pieces(const Position& p) {
  const auto more = [&](PieceType type) {
    return rules::count(p.pieces(rules::white, type)) - rules::count(p.pieces(rules::black, type));
  };
  return more(rules::knight) + more(rules::bishop) == 0 && more(rules::rook) == 0 &&
         more(rules::queen) == 0;
}

Reason trade_reason(const MoveFacts& facts, ReasonKind kind, Square s, const Position& p) {
  Reason reason = facts.reason(kind);
  add_square(reason, p, s);
  if (has_like_pieces(facts.position)) {
    reason.gain = search::nominal_balance(facts.position, facts.side());
  }
  return reason;
}

// The man of the same kind that could take the man that moved, evenly, and stands in its way.
Square opposite(const PlayedLine& line) {
  const Position &before = line.at(0), &now = line.after(0);
  const Square to = line.key().to();
  if (now.in_check()) return rules::no_square;
  Bitboard men = attacks_from(now, to) & now.pieces(line.theirs(), type_on(now, to)) &
                 ~attacks_from(before, line.key().from());
  while (men != 0) {
    const Square s = rules::take_first(men);
    const Move takes = Move::normal(s, to);
    if (rules::is_legal(now, takes) && search::exchange_value(now, takes) == 0) return s;
  }
  return rules::no_square;
}

// Whether the man that moved could take that man and win nothing by it.
bool is_even(const PlayedLine& line, Square s) {
  const auto pass = passed(line.after(0));
  const Move takes = Move::normal(line.key().to(), s);
  return pass && rules::is_legal(*pass, takes) && search::exchange_value(*pass, takes) == 0;
}

std::optional<Reason> trade_offered(const MoveFacts& facts, const PlayedLine& line) {
  const Square s = opposite(line), to = line.key().to();
  if (s == rules::no_square || line.size() < 3 || !is_piece(line.after(0), to)) return std::nullopt;
  const bool taken = takes_back_at(line, 1, to) && takes_back_at(line, 2, to);
  const bool takes = line.move(2) == Move::normal(to, s) && takes_back_at(line, 3, s);
  const bool ahead = search::nominal_balance(facts.position, facts.side()) >= a_pawn;
  const bool declined = ahead && line.move(1).from() == s;
  const bool queens = type_on(line.after(0), to) == rules::queen;
  if (!ahead && !queens && facts.role != Role::best) return std::nullopt;
  if (!taken && !(is_even(line, s) && (takes || declined))) return std::nullopt;
  return trade_reason(facts, ReasonKind::offers_trade, to, line.after(0));
}

// Whether the rook on `s` has a clear way along its file to the pawn in front of it.
bool is_behind(const Position& p, Square rook, Square pawn) {
  const rules::Color side = rules::color_of(p.piece_on(pawn));
  return rules::file_of(rook) == rules::file_of(pawn) &&
         rules::rank_seen_by(side, rook) < rules::rank_seen_by(side, pawn) &&
         (rules::between(rook, pawn) & p.occupied()) == 0;
}

// Whether nothing stands between the pawn and the square on its file before it.
bool is_before(const Position& p, Square square, Square pawn) {
  const rules::Color side = rules::color_of(p.piece_on(pawn));
  return rules::file_of(square) == rules::file_of(pawn) &&
         rules::rank_seen_by(side, square) > rules::rank_seen_by(side, pawn) &&
         (rules::between(square, pawn) & p.occupied()) == 0;
}

bool is_far_passed(const Position& p, Square pawn, int least_rank) {
  return rules::rank_seen_by(rules::color_of(p.piece_on(pawn)), pawn) >= least_rank &&
         rules::is_passed(p, pawn);
}

// Whether the pawn of the other side comes to where the man that moved stands, or beyond.
bool gets_past(const PlayedLine& line, Square pawn) {
  const Square to = line.key().to();
  Square at = pawn;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Move m = line.move(i);
    if (i % 2 == 0 && m.to() == at) return false;
    if (i % 2 == 1 && m.from() == at) at = m.to();
  }
  return rules::rank_seen_by(line.theirs(), at) >= rules::rank_seen_by(line.theirs(), to);
}

std::optional<Reason> file_taken(const MoveFacts& facts, const PlayedLine& line) {
  const Position& now = line.after(0);
  const Square to = line.key().to(), from = line.key().from();
  const Bitboard file = rules::file_mask(rules::file_of(to));
  if (rules::file_of(to) == rules::file_of(from)) return std::nullopt;
  if ((file & now.pieces(rules::pawn)) != 0) return std::nullopt;
  const Bitboard heavy = now.pieces(rules::rook) | now.pieces(rules::queen);
  if ((file & heavy & now.pieces(line.theirs())) != 0) return std::nullopt;
  for (std::size_t i = 2; i < std::min(line.size(), use_plies); i += 2) {
    const Move m = line.move(i);
    const PieceType man = type_on(line.at(i), m.from());
    const bool along = rules::contains(file, m.from()) && rules::contains(file, m.to());
    if (along && (man == rules::rook || man == rules::queen) &&
        rules::rank_seen_by(line.mine(), m.to()) >= 4) {
      Reason reason = facts.reason(ReasonKind::open_file);
      add_square(reason, now, to);
      return reason;
    }
  }
  return std::nullopt;
}

std::optional<Reason> seventh_taken(const MoveFacts& facts, const PlayedLine& line) {
  const Position& now = line.after(0);
  const Square to = line.key().to();
  if (rules::rank_seen_by(line.mine(), to) != 6 || line.size() < 3) return std::nullopt;
  if (rules::rank_seen_by(line.mine(), line.key().from()) == 6) return std::nullopt;
  const Bitboard seventh = rules::rank_mask(rules::rank_of(to));
  const bool king = rules::rank_seen_by(line.mine(), now.king_square(line.theirs())) == 7;
  if (!king && (seventh & now.pieces(line.theirs(), rules::pawn)) == 0) return std::nullopt;
  if (line.move(1).to() == to) return std::nullopt;
  const Move next = line.move(2);
  if (next.from() == to && !rules::contains(seventh, next.to())) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::seventh_rank);
  add_square(reason, now, to);
  return reason;
}

}  // namespace

std::optional<Reason> trade_made(const MoveFacts& facts) {
  if (standing_of(expectation(facts.score)) < Standing::level) return std::nullopt;
  const PieceType man = type_on(facts.position, facts.move().from());
  if (trades_soon(facts.position, facts.other, man)) return std::nullopt;
  const PlayedLine line(facts.position, facts.line, {});
  if (!line.at(0).is_capture(line.key())) return trade_offered(facts, line);
  const Square to = line.key().to();
  const bool alike = line.takes_piece(0) && type_on(line.at(0), to) == type_on(line.after(0), to);
  if (!alike || facts.takes_back() || !takes_back_at(line, 1, to)) return std::nullopt;
  Reason reason = trade_reason(facts, ReasonKind::trades, to, line.at(0));
  const bool takes_next = line.size() > 3 && line.takes_piece(2) && line.move(2).to() != to &&
                          line.move(3).to() != line.move(2).to();
  if (takes_next) add_square(reason, line.at(2), line.move(2).to());
  const Position& traded = line.after(1);
  const bool last = (traded.pieces(rules::queen) | traded.pieces(rules::rook)) == 0;
  const bool tells =
      takes_next || reason.gain >= a_pawn || last || type_on(line.at(0), to) == rules::queen;
  if (!tells && facts.role != Role::best) return std::nullopt;
  return reason;
}

std::optional<Reason> man_guarded(const MoveFacts& facts) {
  if (facts.other.size() < 2 || facts.other.front() == facts.move()) return std::nullopt;
  const Position& start = facts.position;
  const Position now = start.after(facts.move());
  const PlayedLine other(start, facts.other, {});
  if (facts.line.size() > 1 && facts.line[1].to() == facts.move().to()) return std::nullopt;
  for (std::size_t i = 1; i < std::min<std::size_t>(other.size(), 4); i += 2) {
    const Square s = other.move(i).to();
    const rules::Piece man = start.piece_on(s);
    if (man == rules::no_piece || rules::color_of(man) != facts.side()) continue;
    if (other.at(i).piece_on(s) != man || profit_on(other.at(1), s) < a_pawn) continue;
    const bool moved = s == facts.move().from();
    const Square stands = moved ? facts.move().to() : s;
    const bool guarded = rules::contains(attacks_from(now, facts.move().to()), s) &&
                         !rules::contains(attacks_from(start, facts.move().from()), s);
    const bool given_up = !moved &&
                          rules::contains(attacks_from(start, facts.other.front().from()), s) &&
                          !rules::contains(attacks_from(other.at(1), facts.other.front().to()), s);
    if (!(moved || guarded || given_up) || profit_on(now, stands) > 0) continue;
    if (moved && start.is_capture(facts.move())) continue;
    if (is_lost_in(facts.line, stands)) continue;
    Reason reason = facts.reason(ReasonKind::guards);
    add_square(reason, start, s);
    if (moved || guarded) return reason;
    reason.means = Means::guard_gone;
    reason.means_squares = {s, facts.other.front().from()};
    reason.means_pieces = {type_on(start, s), type_on(start, facts.other.front().from())};
    return reason;
  }
  return std::nullopt;
}

std::optional<Reason> check_avoided(const MoveFacts& facts) {
  if (facts.other.size() < 2 || facts.line.size() < 2) return std::nullopt;
  const Position now = facts.position.after(facts.move());
  const Position not_so = facts.position.after(facts.other.front());
  const Move reply = facts.other[1];
  if (facts.line[1] != reply || !not_so.is_capture(reply)) return std::nullopt;
  if (!not_so.gives_check(reply) || now.gives_check(reply)) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::avoids_check);
  add_square(reason, now, reply.to());
  return reason;
}

std::optional<Reason> man_sent_back(const MoveFacts& facts) {
  if (!facts.last || facts.role == Role::best || facts.last.is_castling()) return std::nullopt;
  if (facts.score > a_pawn) return std::nullopt;  // more is lost than time
  const Position& start = facts.position;
  const PieceType man = type_on(start, facts.last.to());
  if (man == rules::pawn || man == rules::king) return std::nullopt;
  if (facts.before.is_capture(facts.last) || facts.before.in_check()) return std::nullopt;
  Square at = facts.last.to();
  const PlayedLine line(start, facts.line, {});
  for (std::size_t i = 0; i < std::min(line.size(), back_plies); ++i) {
    const Move m = line.move(i);
    if (i % 2 == 0 && m.to() == at) return std::nullopt;
    if (i % 2 == 0 || m.from() != at) continue;
    at = m.to();
    if (line.at(i).is_capture(m)) return std::nullopt;
    if (at != facts.last.from()) continue;
    if (i > 1 && !start.in_check()) return std::nullopt;
    Reason reason = facts.reason(ReasonKind::sends_back);
    add_square(reason, start, facts.last.to());
    add_square(reason, start, at);
    return reason;
  }
  return std::nullopt;
}

std::optional<Reason> square_used(const MoveFacts& facts) {
  if (type_on(facts.position, facts.move().from()) == rules::king) return std::nullopt;
  if (facts.position.is_capture(facts.move())) return std::nullopt;
  if (search::exchange_value(facts.position, facts.move()) < 0) return std::nullopt;
  const auto hung = passed(facts.position);
  if (hung && profit_on(*hung, facts.move().from()) >= a_pawn) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::comes_in);
  const std::size_t plies = std::min<std::size_t>(facts.line.size(), 1);
  reason.line.assign(facts.line.begin(), facts.line.begin() + static_cast<std::ptrdiff_t>(plies));
  tell_means(reason, facts);
  if (reason.means != Means::square_unguarded && reason.means != Means::line_opened) {
    return std::nullopt;
  }
  reason.line.clear();
  add_square(reason, facts.position, facts.move().to());
  return reason;
}

std::optional<Reason> pawn_placed(const MoveFacts& facts) {
  const PlayedLine line(facts.position, facts.line, {});
  const Position &before = line.at(0), &now = line.after(0);
  const Square from = line.key().from(), to = line.key().to();
  if (type_on(before, from) != rules::pawn || line.key().is_promotion()) return std::nullopt;
  constexpr int fourth = 3;
  if (rules::is_passed(before, from) || !is_far_passed(now, to, fourth)) return std::nullopt;
  Square at = to;
  for (std::size_t i = 1; i < std::min(line.size(), stay_plies); ++i) {
    if (i % 2 == 1 && line.move(i).to() == at) return std::nullopt;
    if (i % 2 == 0 && line.move(i).from() == at) at = line.move(i).to();
  }
  Reason reason = facts.reason(ReasonKind::makes_passed);
  add_square(reason, now, to);
  return reason;
}

std::optional<Reason> passed_pawn_met(const MoveFacts& facts) {
  const PlayedLine line(facts.position, facts.line, {});
  const Position& now = line.after(0);
  const Square to = line.key().to();
  const PieceType man = type_on(now, to);
  if (man == rules::pawn || line.key().is_castling()) return std::nullopt;
  if (line.size() > 1 && line.move(1).to() == to) return std::nullopt;
  constexpr int fourth = 3, fifth = 4;
  for (Bitboard pawns = now.pieces(rules::pawn); pawns != 0;) {
    const Square s = rules::take_first(pawns);
    const rules::Color side = rules::color_of(now.piece_on(s));
    const bool stops = side == line.theirs() && is_before(now, to, s) &&
                       !is_before(line.at(0), line.key().from(), s) && is_far_passed(now, s, fifth);
    const bool behind = man == rules::rook && is_far_passed(now, s, fourth) &&
                        is_behind(now, to, s) && !is_behind(line.at(0), line.key().from(), s);
    if (!stops && !behind) continue;
    if (stops && gets_past(line, s)) continue;
    Reason reason = facts.reason(stops ? ReasonKind::stops_pawn : ReasonKind::behind_pawn);
    add_square(reason, now, s);
    return reason;
  }
  return std::nullopt;
}

std::optional<Reason> rook_placed(const MoveFacts& facts) {
  const PlayedLine line(facts.position, facts.line, {});
  const PieceType man = type_on(line.at(0), line.key().from());
  if (man != rules::rook || line.key().is_castling()) return std::nullopt;
  if (line.at(0).is_capture(line.key()) || line.at(0).in_check()) return std::nullopt;
  if (auto file = file_taken(facts, line)) return file;
  return seventh_taken(facts, line);
}

std::optional<Reason> king_brought(const MoveFacts& facts) {
  if (facts.position.pieces(rules::queen) != 0) return std::nullopt;
  if (facts.position.is_capture(facts.move())) return std::nullopt;
  const PlayedLine line(facts.position, facts.line, {});
  const Square from = facts.position.king_square(line.mine());
  std::size_t first = line.size();
  int willing = 0;
  Square to = from;  // as far as it gets
  const auto rank_of = [&](Square s) { return rules::rank_seen_by(line.mine(), s); };
  for (std::size_t i = 0; i < std::min(line.size(), walk_plies); i += 2) {
    if (type_on(line.at(i), line.move(i).from()) != rules::king) continue;
    first = std::min(first, i);
    if (!line.at(i).in_check()) ++willing;
    if (rank_of(line.move(i).to()) >= rank_of(to)) to = line.move(i).to();
  }
  constexpr std::size_t begins_by = 2;
  constexpr int least_steps = 2, least_rank = 3;
  if (first > begins_by || willing < 2) return std::nullopt;
  if (rank_of(to) < least_rank || rank_of(to) < rank_of(from) + least_steps) return std::nullopt;
  if (rank_of(line.end().king_square(line.mine())) + 1 < rank_of(to)) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::king_comes);
  reason.squares = {from, to};
  reason.pieces = {rules::king};
  reason.line = facts.line;
  return reason;
}

}  // namespace kairos::study
