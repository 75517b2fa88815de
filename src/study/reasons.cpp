// Which facts are looked for, by the kind of moment: what the reply to an error or a trap does,
// what the best move does and meets, why the second best fails, and the motif of the move that
// makes the moment. A fact that is not sure is left out rather than guessed, and so is what a reply
// does where the line of the best move holds the same.
#include "reasons.hpp"

#include <algorithm>

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/settled.hpp"
#include "kairos/study/forced.hpp"
#include "kairos/study/motifs.hpp"

#include "attacks_made.hpp"
#include "board_facts.hpp"
#include "men_placed.hpp"
#include "move_reasons.hpp"
#include "played_line.hpp"
#include "threats.hpp"

namespace kairos::study {

namespace {

constexpr std::size_t late_plies = 5;  // what falls later is compared with the best move's line

class Reasoning {
 public:
  Reasoning(const Evidence& evidence, Moment& moment, const Settings& settings)
      : e_(evidence), m_(moment), nodes_(proof_nodes(settings.effort.verify_nodes)) {}

  // Of the best move; `other` was made, or would be, in its place.
  void of_best(rules::Move other) {
    MoveFacts facts;
    facts.role = Role::best;
    facts.before = e_.before;
    facts.last = e_.last;
    facts.position = m_.position;
    facts.line = m_.line;
    facts.score = m_.best_score;
    facts.earlier = e_.earlier;
    if (other == m_.second) facts.other = m_.second_refutation;
    if (other == m_.played) facts.other = m_.refutation;
    if (other) facts.other.insert(facts.other.begin(), other);
    const bool took = e_.last && e_.before.is_capture(e_.last);
    const std::size_t first = m_.reasons.size();
    explain(facts, took ? &e_.before : nullptr);
    if (other == m_.best || facts.score <= -search::min_mate_score) return;
    what_it_meets(facts, other, first);
    if (m_.reasons.size() == first) what_it_keeps(facts, first);
  }

  // Of the reply to a move in question, whose score is `score`, from the side that makes it. What
  // that move took counts against the reply.
  void of_reply(Role role, const std::vector<rules::Move>& replies, search::Score score) {
    if (replies.empty()) return;
    MoveFacts facts;
    facts.role = role;
    facts.before = m_.position;
    facts.last = role == Role::reply ? move_in_question(m_) : m_.second;
    facts.position = position_of(m_, role);
    facts.line = replies;
    facts.score = seen_from_before(score);
    facts.earlier = e_.earlier;
    if (answers_the_best_too(facts)) return;
    const std::size_t first = m_.reasons.size();
    explain(facts, &m_.position);
    m_.reasons.erase(
        std::remove_if(m_.reasons.begin() + static_cast<std::ptrdiff_t>(first), m_.reasons.end(),
                       [&](const Reason& r) {
                         const bool only_comes = r.kind == ReasonKind::comes_in;
                         return holds_of_the_best_too(r) || (only_comes && is_unguarded_in_both(r));
                       }),
        m_.reasons.end());
    for (std::size_t i = first; i < m_.reasons.size(); ++i) {
      Reason& reason = m_.reasons[i];
      if (!is_unguarded_in_both(reason)) continue;
      reason.means.reset();
      reason.means_squares.clear();
      reason.means_pieces.clear();
    }
    if (m_.reasons.size() == first) man_saved(facts);
  }

  // A move that is told for what it wins: before what it does for that, but for a pawn won late.
  void men_first() {
    std::stable_partition(m_.reasons.begin(), m_.reasons.end(), [](const Reason& reason) {
      const bool wins =
          reason.kind == ReasonKind::wins_material || reason.kind == ReasonKind::soon_wins;
      return wins ? reason.gain >= a_piece || reason.line.size() <= late_plies : !is_deed(reason);
    });
  }

  void motif_of_best() {
    motif(Role::best, m_.best,
          motifs_of(m_.position, m_.line, {e_.last ? &e_.before : nullptr, e_.last}));
  }

  void motif_of_reply() {
    if (m_.refutation.empty()) return;
    motif(Role::reply, m_.refutation.front(),
          motifs_of(position_of(m_, Role::reply), m_.refutation,
                    {&m_.position, move_in_question(m_)}));
  }

 private:
  // Where the best move takes a piece the reply to another saves it by going away.
  void man_saved(const MoveFacts& facts) {
    const rules::Square s = facts.move().from();
    const bool falls = m_.best.to() == s && m_.position.is_capture(m_.best);
    const bool takes = facts.position.is_capture(facts.move());
    if (!falls || takes || !is_piece(facts.position, s)) return;
    if (is_given_up_in(facts, facts.move().to())) return;
    Reason& reason = m_.reasons.emplace_back(facts.reason(ReasonKind::evades));
    add_square(reason, facts.position, s);
  }

  // Stands before what the move only does on the board; its reasons begin at index `first`.
  void what_it_meets(const MoveFacts& facts, rules::Move other, std::size_t first) {
    std::vector<Reason>& all = m_.reasons;
    const bool decides =
        all.size() > first && (is_mate(all.back()) || all.back().kind == ReasonKind::draws);
    if (decides) return;
    const bool bare = all.size() == first || is_deed(all[first]);
    auto met = prevented_by(facts, other, m_.nodes);
    if (!met && bare) met = mate_met(facts, other);
    if (!met) return;
    std::erase_if(all, [&](const Reason& reason) {
      return reason.role == Role::best && reason.kind == ReasonKind::guards &&
             reason.squares == met->squares;
    });
    const auto at = bare ? all.begin() + static_cast<std::ptrdiff_t>(first) : all.end();
    all.insert(at, std::move(*met));
  }

  // The man that the reply to the other move wins; that reply's reasons stand before index `first`.
  void what_it_keeps(const MoveFacts& facts, std::size_t first) {
    for (std::size_t i = 0; i < first; ++i) {
      const Reason& loses = m_.reasons[i];
      if (loses.target == rules::no_square) continue;
      if (auto kept = man_kept(facts, loses.target, loses.line.size())) {
        m_.reasons.push_back(std::move(*kept));
        return;
      }
    }
  }

  void explain(const MoveFacts& facts, const rules::Position* since) {
    std::vector<Reason> found = reasons_of_move(facts, since, nodes_, m_.nodes);
    for (Reason& reason : found) m_.reasons.push_back(std::move(reason));
  }

  // A capture that could answer the best move too, and would win as much there by counting the
  // exchange, refutes nothing; but for one that leads to mate.
  [[nodiscard]] bool answers_the_best_too(const MoveFacts& facts) const {
    const rules::Move reply = facts.move();
    const rules::Position after_best = m_.position.after(m_.best);
    if (search::is_mate(facts.score) || !facts.position.is_capture(reply)) return false;
    if (!rules::is_legal(after_best, reply)) return false;
    if (after_best.piece_on(reply.from()) != facts.position.piece_on(reply.from()) ||
        after_best.piece_on(reply.to()) != facts.position.piece_on(reply.to())) {
      return false;
    }
    const search::Score wins = search::exchange_value(facts.position, reply);
    return wins > 0 && search::exchange_value(after_best, reply) >= wins;
  }

  // Whether the reply could be played after the best move too, and would attack the same man there.
  [[nodiscard]] bool attacks_after_the_best_too(const Reason& reason) const {
    if (reason.kind != ReasonKind::drives_off && reason.kind != ReasonKind::hits) return false;
    const rules::Position after_best = m_.position.after(m_.best);
    const rules::Square s = reason.squares.front();
    if (reason.means || !rules::is_legal(after_best, reason.move)) return false;
    if (after_best.piece_on(s) != m_.position.piece_on(s)) return false;
    const auto pass = passed(after_best.after(reason.move));
    return pass && profit_on(*pass, s) >= a_pawn;
  }

  // What a reply only does on the board, or the man it wins, is no reason where the line of the
  // best move holds the same.
  [[nodiscard]] bool holds_of_the_best_too(const Reason& reason) const {
    if (attacks_after_the_best_too(reason)) return true;
    const auto& line = m_.line;
    const bool at_once = line.size() > 1 && line[1] == reason.move;
    // What comes later all the same is none but for a fork or a mate.
    const bool greater = reason.means == Means::fork || reason.mate_moves > 0;
    const bool soon = at_once || (!greater && line.size() > 3 && line[3] == reason.move);
    switch (reason.kind) {
      case ReasonKind::wins_material:
      case ReasonKind::soon_wins:
        if (at_once) return reason.target != rules::no_square && is_lost_in(line, reason.target);
        return reason.line.size() > late_plies && reason.gain < a_piece && falls_in_best(reason);
      case ReasonKind::trades:
      case ReasonKind::offers_trade:
        return trades_soon(m_.position, line, reason.pieces.front());
      case ReasonKind::threatens:  // of a mate it is told: there it may be met
        return soon && reason.mate_moves == 0;
      case ReasonKind::attacks_king:
      case ReasonKind::opens_king:
        return soon;
      default:
        return soon && is_deed(reason) && !forks_here_alone(reason);
    }
  }

  // Whether the man won falls in the best move's line too; of men that are not named, as many.
  [[nodiscard]] bool falls_in_best(const Reason& reason) const {
    const PlayedLine best(m_.position, m_.line, {});
    if (reason.target != rules::no_square) return is_lost_in(m_.line, reason.target);
    const search::Score before = search::nominal_balance(m_.position, best.theirs());
    return search::nominal_balance(best.end(), best.theirs()) >= before + reason.gain;
  }

  // Whether the reply attacks men here that it would not all attack after the best move.
  [[nodiscard]] bool forks_here_alone(const Reason& reason) const {
    if (reason.means != Means::fork) return false;
    const rules::Position after_best = m_.position.after(m_.best);
    if (!rules::is_legal(after_best, reason.move)) return true;
    const rules::Position here = position_of(m_, reason.role).after(reason.move);
    const rules::Position there = after_best.after(reason.move);
    return std::ranges::any_of(reason.means_squares, [&](rules::Square s) {
      return there.piece_on(s) != here.piece_on(s);
    });
  }

  // That a square or a man has no guard any more is no cause where it has none after the best move
  // either.
  [[nodiscard]] bool is_unguarded_in_both(const Reason& reason) const {
    if (reason.means != Means::square_unguarded && reason.means != Means::guard_gone) return false;
    const rules::Position after_best = m_.position.after(m_.best);
    const rules::Bitboard guards =
        rules::attackers_to(after_best, reason.means_squares[0], after_best.occupied()) &
        after_best.pieces(m_.position.side_to_move());
    return guards == 0;
  }

  void motif(Role role, rules::Move move, const std::vector<Motif>& motifs) {
    if (motifs.empty()) return;
    Reason& reason = m_.reasons.emplace_back();
    reason.role = role;
    reason.kind = ReasonKind::motif;
    reason.move = move;
    reason.motif = motifs.front();
  }

  const Evidence& e_;
  Moment& m_;
  std::uint64_t nodes_;  // of one proof
};

}  // namespace

void give_reasons(const Evidence& evidence, const Settings& settings, Moment& m) {
  Reasoning reasoning(evidence, m, settings);
  switch (m.kind) {
    case Kind::swing:
    case Kind::slip:
    case Kind::slide:
    case Kind::turn:
      reasoning.of_reply(Role::reply, m.refutation, m.played_score);
      reasoning.of_best(m.played);
      return reasoning.motif_of_reply();
    case Kind::only_move:
      reasoning.of_reply(Role::second_reply, m.second_refutation, m.second_score);
      reasoning.of_best(m.second);
      return reasoning.motif_of_best();
    case Kind::trap:
      reasoning.of_reply(Role::reply, m.refutation, m.tempting_score);
      return reasoning.motif_of_reply();
    case Kind::quiet_win:
      reasoning.of_best(m.second);
      reasoning.men_first();
      return reasoning.motif_of_best();
    case Kind::ended_early:
      reasoning.of_best(m.second);
      return reasoning.motif_of_best();
    case Kind::claim:
      return;
  }
}

}  // namespace kairos::study
