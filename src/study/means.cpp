// How a gain or a mate comes about. The "capture" is the first of the line that takes a man of a
// type won, or else the first of all.
//
//   guard_gone: the man captured stood on its square before the move in question was made; the man
//     that moved guarded it there and from where it now stands does not; and by counting the
//     exchange the capture wins a pawn more than it would have won before; where the side was in
//     check then, than the men taken and taken back are worth.
//   guard_shut: the same, where the guard is a bishop, rook or queen and the man that moved stands
//     between it and what it guarded.
//   square_unguarded: the move goes to an empty square that the man that moved guarded before, and
//     by counting the exchange it would have lost a man there and now does not.
//   line_opened: the move, or the capture, runs along a file, rank or diagonal on which the man
//     that moved was the only one between before.
//   trade: the move takes a piece and the reply takes back one of the same kind.
//   in_between, guard_taken, guard_drawn_off, discovered, skewer, fork, pin, trapped: by the rules
//     of the motifs (motifs_*.cpp), on the reason's line; a man pinned or trapped must be won, not
//     only traded.
#include "means.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/search/settled.hpp"

#include "played_line.hpp"

namespace kairos::study {

using rules::Bitboard;
using rules::Move;
using rules::Position;
using rules::Square;

namespace {

constexpr search::Score a_pawn = 100;

class MeansOf {
 public:
  MeansOf(Reason& reason, const MoveFacts& facts)
      : reason_(reason),
        facts_(facts),
        line_(facts.position, reason.line, {facts.last ? &facts.before : nullptr, facts.last}),
        capture_(the_capture()) {}

  void tell() {
    const bool told =
        gave_up_a_guard() || unguarded_a_square() || opened_a_line() || begins_with_a_trade();
    if (!told && line_.size() >= 3) by_motif();
  }

 private:
  // The index of the capture that the gain comes of; size() when the line takes nothing.
  [[nodiscard]] std::size_t the_capture() const {
    std::size_t first = line_.size();
    for (std::size_t i = 0; i < line_.size(); i += 2) {
      if (!line_.at(i).is_capture(line_.move(i))) continue;
      const rules::PieceType taken = type_at(i);
      if (reason_.men.won[taken] > 0) return i;
      first = std::min(first, i);
    }
    return first;
  }

  [[nodiscard]] rules::PieceType type_at(std::size_t i) const {
    return taken_type(line_.at(i), line_.move(i));
  }

  void set(Means means, const Position& p, std::vector<Square> squares) {
    reason_.means = means;
    reason_.means_squares = std::move(squares);
    for (const Square s : reason_.means_squares) {
      reason_.means_pieces.push_back(rules::type_of(p.piece_on(s)));
    }
  }

  [[nodiscard]] bool knows_before() const { return facts_.last && !facts_.before.in_check(); }

  // What the move would have won by exchanges if the move in question had not been made; nothing
  // where it could not have been played.
  [[nodiscard]] std::optional<search::Score> value_before(Move m) const {
    const Position passed = facts_.before.after(rules::null_move);
    if (!rules::is_legal(passed, m)) return std::nullopt;
    return search::exchange_value(passed, m);
  }

  // Whether the man on that square has not moved since before the move in question.
  [[nodiscard]] bool has_stayed(Square s, std::size_t i) const {
    const rules::Piece man = line_.at(i).piece_on(s);
    for (std::size_t k = 0; k < i; ++k) {
      if (line_.at(k).piece_on(s) != man) return false;
    }
    return facts_.before.piece_on(s) == man;
  }

  bool gave_up_a_guard() {
    if (!facts_.last || capture_ >= line_.size()) return false;
    const Move capture = line_.move(capture_);
    const Square target = capture.to(), from = capture.from();
    const Position& now = facts_.position;
    if (capture.is_en_passant() || !has_stayed(target, capture_) || !has_stayed(from, capture_)) {
      return false;
    }
    const auto was = knows_before() ? value_before(capture)
                                    : search::Score{worth(now, target) - worth(now, from)};
    if (!was || !rules::is_legal(now, capture)) return false;
    if (search::exchange_value(now, capture) < *was + a_pawn) return false;
    const Bitboard guards = rules::attackers_to(facts_.before, target, facts_.before.occupied()) &
                            ~rules::attackers_to(now, target, now.occupied()) &
                            facts_.before.pieces(line_.theirs());
    const Square moved = facts_.last.from(), gone = facts_.last.to();
    if (rules::contains(guards, moved)) {
      if (rules::contains(attacks_from(now, gone), target)) return false;
      set(Means::guard_gone, now, {target, gone});
      return true;
    }
    for (Bitboard left = guards; left != 0;) {
      const Square guard = rules::take_first(left);
      if (!rules::contains(rules::between(guard, target), gone)) continue;
      set(Means::guard_shut, now, {target, guard});
      return true;
    }
    return false;
  }

  bool unguarded_a_square() {
    if (!knows_before()) return false;
    const Move key = line_.key();
    const Square to = key.to(), moved = facts_.last.from(), gone = facts_.last.to();
    if (!facts_.position.is_empty(to) || !facts_.before.is_empty(to) || key.is_castling()) {
      return false;
    }
    if (facts_.before.piece_on(key.from()) != facts_.position.piece_on(key.from())) return false;
    if (!rules::contains(attacks_from(facts_.before, moved), to)) return false;
    const Bitboard guards = rules::attackers_to(facts_.position, to, facts_.position.occupied());
    if ((guards & facts_.position.pieces(line_.theirs())) != 0) return false;
    const auto was = value_before(key);
    if (!was || *was > -a_pawn || search::exchange_value(facts_.position, key) < 0) return false;
    set(Means::square_unguarded, facts_.position, {to, gone});
    reason_.means_pieces.front() = rules::no_piece_type;
    return true;
  }

  // Along a line on which the man that moved was the only one between.
  [[nodiscard]] bool runs_through(Move m) const {
    const Bitboard way = rules::between(m.from(), m.to());
    const Bitboard men = way & facts_.before.occupied();
    return men == rules::bit(facts_.last.from());
  }

  bool opened_a_line() {
    if (!facts_.last || facts_.last.is_castling()) return false;
    for (const std::size_t i : {std::size_t{0}, capture_}) {
      if (i >= line_.size() || !has_stayed(line_.move(i).from(), i)) continue;
      const Move m = line_.move(i);
      if (rules::type_of(line_.at(i).piece_on(m.from())) == rules::king) continue;
      if (!runs_through(m)) continue;
      set(Means::line_opened, line_.at(i), {m.from(), facts_.last.from(), m.to()});
      return true;
    }
    return false;
  }

  bool begins_with_a_trade() {
    if (line_.size() < 2 || !line_.at(0).is_capture(line_.key())) return false;
    const Square at = line_.key().to();
    const rules::PieceType taken = type_at(0);
    const rules::PieceType lost = rules::type_of(line_.after(0).piece_on(at));
    if (line_.move(1).to() != at || taken != lost || taken == rules::pawn) return false;
    set(Means::trade, line_.at(0), {at});
    return true;
  }

  // Whether the first of the men is of a type won, not only traded.
  [[nodiscard]] bool falls(const std::vector<Square>& men) const {
    if (men.empty()) return false;
    return reason_.men.won[rules::type_of(line_.after(0).piece_on(men.front()))] > 0;
  }

  void by_motif() {
    const Position& now = line_.after(0);
    if (is_in_between_move(line_)) return set(Means::in_between, now, {});
    if (is_overloaded(line_) || is_deflection(line_)) {
      return set(Means::guard_drawn_off, now, {line_.move(1).from()});
    }
    if (is_removing_the_guard(line_))
      return set(Means::guard_taken, line_.at(0), {line_.key().to()});
    if (is_discovered_attack(line_)) {
      return set(Means::discovered, now, {line_.move(2).from(), line_.move(2).to()});
    }
    if (is_skewer(line_))
      return set(Means::skewer, now, {line_.move(1).from(), line_.move(2).to()});
    if (auto forked = fork_targets(line_); is_fork(line_) && forked.size() > 1) {
      return set(Means::fork, now, std::move(forked));  // not of one man and a threat of mate
    }
    if (auto pinned = pinned_man(line_); falls(pinned)) {
      return set(Means::pin, now, std::move(pinned));
    }
    if (auto trapped = trapped_man(line_); falls(trapped)) {
      set(Means::trapped, now, std::move(trapped));
    }
  }

  Reason& reason_;
  const MoveFacts& facts_;
  PlayedLine line_;
  std::size_t capture_;
};

}  // namespace

void tell_means(Reason& reason, const MoveFacts& facts) {
  if (!reason.line.empty()) MeansOf(reason, facts).tell();
}

}  // namespace kairos::study
