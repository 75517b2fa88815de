// How men stand after a move. All is read from the board, and the line bears it out.
//
//   pins: a bishop, rook or queen that moves has a piece of the other side before it, alone on the
//     line to the king, or to a queen worth more than the man that moved; it had not before. The
//     reply does not take it, and the pinned piece does not move within `pinned_plies`. The pinned
//     piece, and what stands behind it.
//   settles: a knight comes, within `settle_plies` of the line and without a capture, to the fifth
//     or sixth rank, where a pawn of its own guards it and no pawn of the other side can ever
//     attack it; it stays there to the line's end, three moves at least, and there was none there
//     before.
//   doubles_pawns: the move of a side that is not worse takes a piece, a pawn takes back and stands
//     on a file with another of its side, with none of its own on one file beside them; both are
//     still there after `doubled_plies`. One of the two squares.
//   evades: a piece moves that the other side, were it to move, would take with profit; it takes
//     nothing, cannot be taken with profit where it goes, and the line does not give it up. Of a
//     best move. Where it stood.
//   stops_castling: a check of a side that is not worse, with the queens of both on the board,
//     makes a king move that had the right to castle.
//   stops_pawn: beside what places_taken.cpp says, the answer to the other move promotes a pawn,
//     and the man that moved bears on the square where it would, did not before, and the line
//     promotes nothing there.
//   keeps_man: the man that the answer to the other move wins stays where it is, in a line that is
//     as long. `guards` where the move begins to guard it.
#include "men_placed.hpp"

#include <algorithm>

#include "kairos/rules/attacks.hpp"
#include "kairos/study/expectation.hpp"

#include "board_facts.hpp"
#include "played_line.hpp"

namespace kairos::study {

using rules::Bitboard;
using rules::Color;
using rules::Move;
using rules::Position;
using rules::Square;

namespace {

constexpr std::size_t pinned_plies = 4, settle_plies = 9, stay_plies = 6, doubled_plies = 8;

// The man behind `pinned` on the line from the slider on `from`: the king, or a queen worth more
// than the slider; no_square where nothing of the kind is pinned.
Square behind_pinned(const Position& p, Square from, Square pinned) {
  const Square s = man_behind(p, from, pinned);
  if (s == rules::no_square) return s;
  if (rules::color_of(p.piece_on(s)) != rules::color_of(p.piece_on(pinned)))
    return rules::no_square;
  const rules::PieceType type = rules::type_of(p.piece_on(s));
  const bool dear = type == rules::king || (type == rules::queen && worth(p, from) < worth(p, s));
  return dear ? s : rules::no_square;
}

Bitboard pieces_attacked(const Position& p, Square from) {
  const Color mine = rules::color_of(p.piece_on(from));
  return attacks_from(p, from) & p.pieces(~mine) & ~p.pieces(rules::pawn) & ~p.pieces(rules::king);
}

// The files beside one.
Bitboard beside(int file) {
  Bitboard files = 0;
  if (file > 0) files |= rules::file_mask(file - 1);
  if (file < 7) files |= rules::file_mask(file + 1);
  return files;
}

// Whether the man on the square is a knight that no pawn can drive off and a pawn guards.
bool is_settled(const Position& p, Square s) {
  if (p.is_empty(s) || rules::type_of(p.piece_on(s)) != rules::knight) return false;
  const Color mine = rules::color_of(p.piece_on(s));
  const int rank = rules::rank_seen_by(mine, s);
  constexpr int fifth = 4, sixth = 5;
  if (rank != fifth && rank != sixth) return false;
  const Bitboard guards = rules::attackers_to(p, s, p.occupied());
  if ((guards & p.pieces(mine, rules::pawn)) == 0) return false;
  for (Bitboard pawns = p.pieces(~mine, rules::pawn) & beside(rules::file_of(s)); pawns != 0;) {
    if (rules::rank_seen_by(mine, rules::take_first(pawns)) > rank) return false;
  }
  return true;
}

bool stays_on(const PlayedLine& line, Square s) {
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line.move(i).from() == s || line.move(i).to() == s) return false;
  }
  return true;
}

}  // namespace

std::optional<Reason> man_pinned(const MoveFacts& facts) {
  const PlayedLine line(facts.position, facts.line, {});
  const Position& now = line.after(0);
  const Square to = line.key().to();
  if (!is_slider(now, to) || line.key().is_castling() || now.in_check()) return std::nullopt;
  if (line.size() < pinned_plies || line.move(1).to() == to) return std::nullopt;
  for (Bitboard men = pieces_attacked(now, to); men != 0;) {
    const Square s = rules::take_first(men);
    const Square behind = behind_pinned(now, to, s);
    if (behind == rules::no_square) continue;
    const Square from = line.key().from();
    const bool was = is_slider(line.at(0), from) &&
                     rules::contains(attacks_from(line.at(0), from), s) &&
                     behind_pinned(line.at(0), from, s) == behind;
    const bool moves = line.move(1).from() == s || line.move(3).from() == s;
    const bool falls = line.move(2).to() == s;
    if (was || (moves && !falls)) continue;
    Reason reason = facts.reason(ReasonKind::pins);
    add_square(reason, now, s);
    add_square(reason, now, behind);
    return reason;
  }
  return std::nullopt;
}

std::optional<Reason> knight_settled(const MoveFacts& facts) {
  const PlayedLine line(facts.position, facts.line, {});
  for (std::size_t i = 0; i < std::min(line.size(), settle_plies); i += 2) {
    const Square s = line.move(i).to();
    if (!is_settled(line.after(i), s) || line.at(i).is_capture(line.move(i))) continue;
    if (is_settled(line.at(0), s) || line.size() < i + 1 + stay_plies) continue;
    bool stays = true;
    for (std::size_t k = i + 1; k < line.size(); ++k) {
      stays = stays && line.move(k).from() != s && line.move(k).to() != s;
    }
    if (!stays) continue;
    Reason reason = facts.reason(ReasonKind::settles);
    add_square(reason, line.after(i), s);
    return reason;
  }
  return std::nullopt;
}

std::optional<Reason> pawns_doubled(const MoveFacts& facts) {
  const PlayedLine line(facts.position, facts.line, {});
  if (standing_of(expectation(facts.score)) < Standing::level) return std::nullopt;
  if (line.size() < doubled_plies || !line.takes_piece(0) || facts.takes_back()) {
    return std::nullopt;
  }
  const Move back = line.move(1);
  const Square to = line.key().to();
  if (back.to() != to) return std::nullopt;
  const Position &before = line.at(1), &later = line.after(doubled_plies - 1);
  if (rules::type_of(before.piece_on(back.from())) != rules::pawn) return std::nullopt;
  const int file = rules::file_of(to);
  const Bitboard on_file = before.pieces(line.theirs(), rules::pawn) & rules::file_mask(file);
  const Bitboard pawns = later.pieces(line.theirs(), rules::pawn);
  if (on_file == 0 || rules::count(pawns & rules::file_mask(file)) < 2) return std::nullopt;
  const Bitboard left = file > 0 ? pawns & rules::file_mask(file - 1) : 0;
  const Bitboard right = file < 7 ? pawns & rules::file_mask(file + 1) : 0;
  if (left != 0 && right != 0) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::doubles_pawns);
  add_square(reason, line.after(1), to);
  return reason;
}

std::optional<Reason> man_evaded(const MoveFacts& facts) {
  const Position& start = facts.position;
  const Move move = facts.move();
  const rules::PieceType man = rules::type_of(start.piece_on(move.from()));
  if (facts.role != Role::best || man == rules::pawn || man == rules::king) return std::nullopt;
  if (start.is_capture(move)) return std::nullopt;
  const auto hung = passed(start);
  if (!hung || profit_on(*hung, move.from()) < a_piece) return std::nullopt;
  const Position now = start.after(move);
  if (profit_on(now, move.to()) > 0 || is_given_up_in(facts, move.to())) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::evades);
  add_square(reason, start, move.from());
  return reason;
}

std::optional<Reason> castling_stopped(const MoveFacts& facts) {
  if (standing_of(expectation(facts.score)) < Standing::level) return std::nullopt;
  const PlayedLine line(facts.position, facts.line, {});
  const Position &start = line.at(0), &now = line.after(0);
  if (line.size() < 2 || !now.in_check()) return std::nullopt;
  if (now.pieces(line.mine(), rules::queen) == 0 || now.pieces(line.theirs(), rules::queen) == 0) {
    return std::nullopt;
  }
  const Square king = now.king_square(line.theirs());
  const bool rights_go = (now.castling() & ~line.after(1).castling()) != 0;
  if (line.move(1).from() != king || !rights_go) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::stops_castling);
  add_square(reason, start, king);
  return reason;
}

std::optional<Reason> promotion_stopped(const MoveFacts& facts) {
  if (facts.role != Role::best || facts.other.size() < 2) return std::nullopt;
  const Move promotes = facts.other[1];
  if (!promotes.is_promotion()) return std::nullopt;
  const Position &start = facts.position, now = start.after(facts.move());
  const Square there = promotes.to();
  if (now.piece_on(promotes.from()) != start.piece_on(promotes.from())) return std::nullopt;
  if (!rules::contains(attacks_from(now, facts.move().to()), there) ||
      rules::contains(attacks_from(start, facts.move().from()), there)) {
    return std::nullopt;
  }
  const bool promoted =
      std::ranges::any_of(facts.line, [&](Move m) { return m.is_promotion() && m.to() == there; });
  if (promoted) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::stops_pawn);
  add_square(reason, start, promotes.from());
  return reason;
}

std::optional<Reason> man_kept(const MoveFacts& facts, Square s, std::size_t plies) {
  const PlayedLine line(facts.position, facts.line, {});
  const Position &start = line.at(0), &now = line.after(0);
  const bool own = !start.is_empty(s) && rules::color_of(start.piece_on(s)) == facts.side();
  if (!own || line.size() < plies || !stays_on(line, s)) return std::nullopt;
  const bool guards = rules::contains(attacks_from(now, facts.move().to()), s) &&
                      !rules::contains(attacks_from(start, facts.move().from()), s);
  Reason reason = facts.reason(guards ? ReasonKind::guards : ReasonKind::keeps_man);
  add_square(reason, start, s);
  return reason;
}

}  // namespace kairos::study
