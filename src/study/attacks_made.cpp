// What a move attacks. All is read from the board and borne out by the line: an attack that the
// reply does not mind and that takes nothing is not told.
//
//   A man (no king) is hit when the man that moved, or a slider whose line it left, attacks it and
//   did not before the move, and could take it with profit if the other side passed where nothing
//   could before; or takes it with its next move, which is no even trade. After a check a hit man
//   is one worth more than the man that moved, or a piece without a guard. Borne out: a man hit is
//   taken within `hit_plies`, or, if it is no pawn, the reply moves it away without a capture, or
//   guards it. Nothing is hit by a man that the reply takes. hits: two men or more, the king with
//   them in check: with the means "fork". One that is taken or
//     guarded.
//   takes: the same of a move that takes a man itself; its square comes first. Or the reply takes a
//     man that the man of the move before no longer guards (means: guard_gone, guard_shut). Or,
//     where nothing else is found, it takes a man that has not just come there and is not taken
//     back at once, and the score tells of no more. Not where the reply takes as much elsewhere.
//   drives_off: one piece hit, and the reply moves it away, without a check. Where it no longer
//   guards what the next
//     move takes or goes to, and did, that square is the second: by counting the exchange the move
//     there would have been worth a pawn less.
//   keeps_attack: a man that could be taken with a piece's profit before the move too, if the side
//     had not to mind a check, and still could if the other side passed, but could not so after the
//     other move; the reply moves it, guards it, or it is taken.
//   leads_to_fork: the next move of the line attacks two men by the rule of the fork, and takes one
//     of them; or is taken by a man worth more, and that is taken back. Told of a side that is not
//     worse: to others a fork may do no more than win back what they are behind.
//   leads_to_threat: the next move of the line threatens mate in one, which the side did not before
//     the first.
//   prevents: beside what threats.cpp says, mate in one that is threatened and that the move meets
//     and the other move does not. A check puts a mate off, so it meets none.
#include "attacks_made.hpp"

#include <algorithm>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/study/expectation.hpp"

#include "board_facts.hpp"
#include "line_gain.hpp"
#include "means.hpp"
#include "played_line.hpp"

namespace kairos::study {

using rules::Bitboard;
using rules::Move;
using rules::Position;
using rules::Square;

namespace {

constexpr std::size_t hit_plies = 5;

// The man, standing where it stood after the key, leaves its square in the reply and takes nothing.
bool goes_away(const PlayedLine& line, Square s) {
  return line.size() > 1 && line.move(1).from() == s && !line.at(1).is_capture(line.move(1));
}

bool falls_within(const PlayedLine& line, Square s, std::size_t plies) {
  const std::size_t i = line.capture_on(s, 2);
  return i < std::min(line.size(), plies);
}

// Whether the reply takes as much as the move has taken.
bool is_answered_in_kind(const PlayedLine& line) {
  if (line.size() < 2 || !line.at(1).is_capture(line.move(1))) return false;
  return worth(line.at(1), line.move(1).to()) >= worth(line.at(0), line.key().to());
}

class Hits {
 public:
  explicit Hits(const PlayedLine& line)
      : line_(line), before_(line.at(0)), now_(line.after(0)), from_(line.key().to()) {
    if (line.key().is_castling()) return;
    const bool is_taken = line.size() > 1 && line.move(1).to() == from_;
    if (is_taken) return;
    for (Bitboard men = newly_attacked(); men != 0;) {
      const Square s = rules::take_first(men);
      if (is_hit(s)) squares_.push_back(s);
    }
  }

  [[nodiscard]] const std::vector<Square>& squares() const { return squares_; }

  [[nodiscard]] bool is_borne_out() const {
    return std::ranges::any_of(squares_, [this](Square s) {
      if (falls_within(line_, s, hit_plies)) return true;
      // That a pawn can be guarded is nothing to tell.
      return is_piece(now_, s) && (goes_away(line_, s) || is_guarded_by_reply(s));
    });
  }

 private:
  [[nodiscard]] Bitboard newly_attacked() const {
    const Bitboard men = now_.pieces(line_.theirs()) & ~now_.pieces(rules::king);
    Bitboard found = attacks_from(now_, from_) & ~attacks_from(before_, line_.key().from());
    Bitboard others = now_.pieces(line_.mine()) & ~rules::bit(from_) & ~now_.pieces(rules::king);
    while (others != 0) {
      const Square s = rules::take_first(others);
      found |= attacks_from(now_, s) & ~attacks_from(before_, s) &
               rules::line_through(s, line_.key().from());
    }
    return found & men;
  }

  [[nodiscard]] bool is_hit(Square s) const {
    const bool next = line_.size() > 2 && line_.move(2).to() == s && line_.capture_on(s, 2) == 2 &&
                      rules::contains(newly_attacked(), s) && !is_traded_next(s);
    if (next) return true;
    const auto pass = passed(now_);
    if (!pass) return worth(now_, s) > worth(now_, from_) || (is_piece(now_, s) && is_loose(s));
    const bool before = !before_.in_check() && profit_on(before_, s) >= a_pawn;
    return !before && profit_on(*pass, s) >= a_pawn;
  }

  // The next move takes the man with one worth as much, which is taken back.
  [[nodiscard]] bool is_traded_next(Square s) const {
    return line_.size() > 3 && line_.move(3).to() == s &&
           worth(line_.at(2), line_.move(2).from()) >= worth(now_, s);
  }

  [[nodiscard]] bool is_loose(Square s) const {
    return (rules::attackers_to(now_, s, now_.occupied()) & now_.pieces(line_.theirs())) == 0;
  }

  [[nodiscard]] bool is_guarded_by_reply(Square s) const {
    if (line_.size() < 2 || now_.in_check()) return false;
    const Position& after = line_.after(1);
    if (after.in_check() || now_.is_capture(line_.move(1))) return false;
    return after.piece_on(s) == now_.piece_on(s) && profit_on(after, s) < a_pawn;
  }

  const PlayedLine& line_;
  const Position& before_;
  const Position& now_;
  Square from_;
  std::vector<Square> squares_;
};

// The square of the next move that the man on `s` guarded until it was driven away; no_square where
// there is none.
Square let_go_by(const PlayedLine& line, Square s) {
  if (line.size() < 3) return rules::no_square;
  const Move use = line.move(2);
  const Position &before = line.after(0), &now = line.at(2);
  const Square to = use.to();
  if (to == s || use.is_castling() || use.from() == line.move(1).to()) return rules::no_square;
  if (!rules::contains(attacks_from(before, s), to)) return rules::no_square;
  if (rules::contains(attacks_from(now, line.move(1).to()), to)) return rules::no_square;
  const auto pass = passed(before);
  if (!pass || !rules::is_legal(*pass, use)) return rules::no_square;
  const search::Score was = search::exchange_value(*pass, use);
  const search::Score is = search::exchange_value(now, use);
  return is >= 0 && is >= was + a_pawn ? to : rules::no_square;
}

// Where the side to move mates at once; no_square where it does not.
Square mate_on(const Position& p) {
  rules::MoveList moves;
  rules::legal_moves(p, moves);
  for (const Move m : moves) {
    if (p.gives_check(m) && rules::is_checkmate(p.after(m))) return m.to();
  }
  return rules::no_square;
}

// The same of the side that is not to move.
Square mate_threatened(const Position& p) {
  const auto pass = passed(p);
  return pass ? mate_on(*pass) : rules::no_square;
}

// A man that had to go, and hits no more than pawns.
bool is_mere_escape(const MoveFacts& facts, const std::vector<Square>& hit) {
  const Position& p = facts.position;
  const auto other = passed(p);
  if (!other || profit_on(*other, facts.move().from()) < a_pawn) return false;
  return std::ranges::all_of(
      hit, [&](Square s) { return rules::type_of(p.piece_on(s)) == rules::pawn; });
}

}  // namespace

std::optional<Reason> men_hit(const MoveFacts& facts) {
  const PlayedLine line(facts.position, facts.line, {});
  const Hits hits(line);
  if (hits.squares().empty() || !hits.is_borne_out()) return std::nullopt;
  const Position &before = line.at(0), &now = line.after(0);
  const Square to = line.key().to();
  // What takes back takes nothing that anybody need be told of.
  const bool takes = !before.is_empty(to) && !facts.takes_back();
  if (is_mere_escape(facts, hits.squares())) return std::nullopt;
  if (takes && is_answered_in_kind(line)) return std::nullopt;
  const bool checks = rules::contains(now.checkers(), to);
  const std::size_t men = hits.squares().size() + (checks ? 1 : 0);
  Reason reason = facts.reason(takes ? ReasonKind::takes : ReasonKind::hits);
  if (takes) add_square(reason, before, to);
  if (checks) add_square(reason, now, now.king_square(line.theirs()));
  for (const Square s : hits.squares()) add_square(reason, now, s);
  if (men >= 2) {
    reason.means = Means::fork;
    reason.means_squares.assign(reason.squares.begin() + (takes ? 1 : 0), reason.squares.end());
    reason.means_pieces.assign(reason.pieces.begin() + (takes ? 1 : 0), reason.pieces.end());
    return reason;
  }
  const Square s = hits.squares().front();
  const bool is_pawn = rules::type_of(now.piece_on(s)) == rules::pawn;
  if (takes || is_pawn || !goes_away(line, s)) return reason;
  if (line.at(1).gives_check(line.move(1))) return reason;
  reason.kind = ReasonKind::drives_off;
  if (const Square use = let_go_by(line, s); use != rules::no_square) add_square(reason, now, use);
  return reason;
}

namespace {

// Whether the man could be taken with such profit after the other move as well.
bool hangs_too(const MoveFacts& facts, Square s) {
  if (facts.other.empty()) return false;
  const Position after = facts.position.after(facts.other.front());
  const auto pass = passed(after);
  return pass && after.piece_on(s) == facts.position.piece_on(s) && profit_on(*pass, s) >= a_piece;
}

}  // namespace

std::optional<Reason> man_left_taken(const MoveFacts& facts) {
  if (!facts.last || facts.position.is_empty(facts.move().to())) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::takes);
  reason.line = {facts.move()};
  tell_means(reason, facts);
  if (reason.means != Means::guard_gone && reason.means != Means::guard_shut) return std::nullopt;
  reason.line.clear();
  add_square(reason, facts.position, facts.move().to());
  return reason;
}

std::optional<Reason> man_taken(const MoveFacts& facts) {
  const Square to = facts.move().to();
  if (facts.position.is_empty(to) || facts.takes_back()) return std::nullopt;
  // What has just come there was given for something.
  if (facts.last && facts.last.to() == to) return std::nullopt;
  if (is_answered_in_kind(PlayedLine(facts.position, facts.line, {}))) return std::nullopt;
  if (facts.line.size() > 1 && facts.line[1].to() == to) return std::nullopt;
  const search::Score told = facts.material() + worth(facts.position, to);
  if (facts.score > told + more_than_men) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::takes);
  add_square(reason, facts.position, to);
  return reason;
}

std::optional<Reason> man_kept_under_attack(const MoveFacts& facts) {
  const PlayedLine line(facts.position, facts.line, {});
  const Position &before = line.at(0), &now = line.after(0);
  const auto pass = passed(now);
  if (!pass || before.is_capture(line.key())) return std::nullopt;
  for (Bitboard men = now.pieces(line.theirs()) & ~now.pieces(rules::king); men != 0;) {
    const Square s = rules::take_first(men);
    const Bitboard mine = now.pieces(line.mine()) & before.pieces(line.mine());
    const Bitboard attackers = rules::attackers_to(now, s, now.occupied()) &
                               rules::attackers_to(before, s, before.occupied()) & mine;
    if (attackers == 0 || profit_on(*pass, s) < a_piece || hangs_too(facts, s)) continue;
    const bool guarded = line.size() > 1 && !line.after(1).in_check() &&
                         !now.is_capture(line.move(1)) && profit_on(line.after(1), s) < a_pawn;
    if (!falls_within(line, s, 3) && !goes_away(line, s) && !guarded) continue;
    Reason reason = facts.reason(ReasonKind::keeps_attack);
    add_square(reason, now, s);
    return reason;
  }
  return std::nullopt;
}

std::optional<Reason> fork_to_come(const MoveFacts& facts) {
  if (facts.line.size() < 5) return std::nullopt;
  if (standing_of(expectation(facts.score)) < Standing::level) return std::nullopt;
  const PlayedLine whole(facts.position, facts.line, {});
  const PlayedLine line(whole.at(2), std::span(facts.line).subspan(2), {});
  const auto targets = fork_targets(line);
  if (targets.size() < 2) return std::nullopt;
  const Square at = line.key().to();
  const bool is_given = line.move(1).to() == at && line.move(2).to() == at &&
                        worth(line.at(1), line.move(1).from()) >= worth(line.at(1), at) + a_pawn &&
                        rules::type_of(line.at(1).piece_on(line.move(1).from())) != rules::king;
  if (!is_fork(line) && !is_given) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::leads_to_fork);
  add_square(reason, line.after(0), at);
  for (const Square s : targets) add_square(reason, line.after(0), s);
  reason.line.assign(facts.line.begin(), facts.line.begin() + 5);
  return reason;
}

std::optional<Reason> mate_threat_to_come(const MoveFacts& facts) {
  if (facts.line.size() < 3) return std::nullopt;
  const PlayedLine line(facts.position, facts.line, {});
  const Square mate = mate_threatened(line.after(2));
  if (mate == rules::no_square || mate_threatened(line.after(0)) != rules::no_square) {
    return std::nullopt;
  }
  Reason reason = facts.reason(ReasonKind::leads_to_threat);
  reason.squares = {mate};
  reason.mate_moves = 1;
  reason.line.assign(facts.line.begin(), facts.line.begin() + 3);
  return reason;
}

std::optional<Reason> mate_met(const MoveFacts& facts, Move other) {
  const Square mate = mate_threatened(facts.position);
  if (mate == rules::no_square || !other) return std::nullopt;
  const Position met = facts.position.after(facts.move());
  if (met.in_check() || mate_on(met) != rules::no_square) return std::nullopt;
  if (mate_on(facts.position.after(other)) == rules::no_square) return std::nullopt;
  Reason reason = facts.reason(ReasonKind::prevents);
  reason.squares = {mate};
  reason.mate_moves = 1;
  return reason;
}

}  // namespace kairos::study
