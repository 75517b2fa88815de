// Which facts are looked for, by the kind of moment: what the reply to an error or a trap does,
// what the best move does and meets, why the second best fails, and the motif of the move that
// makes the moment. A fact that is not sure is left out rather than guessed.
//
// Of one move the first that holds is told, and at most `most_reasons` of them: a mate; a draw by
// force; men won, with how; an attack on the king; a passed pawn; a threat; a king opened; an
// ending; zugzwang. Men won tell all where the score is no more than they are worth; where it is
// more, a pawn is not told at all.
#include "reasons.hpp"

#include <algorithm>

#include "kairos/search/settled.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/forced.hpp"
#include "kairos/study/motifs.hpp"

#include "line_ends.hpp"
#include "line_gain.hpp"
#include "means.hpp"
#include "played_line.hpp"
#include "threats.hpp"

namespace kairos::study {

namespace {

constexpr std::size_t most_reasons = 2;  // of one move, its motif apart
// A score further than this above the men on the board tells of more than men.
constexpr search::Score more_than_men = 200;
constexpr search::Score a_piece = 200;  // or the exchange

bool is_mate(const Reason& reason) {
  return reason.kind == ReasonKind::mates || reason.kind == ReasonKind::leads_to_mate;
}

// The reasons of one move, in the order in which they are told.
class MoveReasons {
 public:
  // Men are counted from `since`, what the move before took against the move itself.
  MoveReasons(MoveFacts facts, const rules::Position* since, std::uint64_t nodes)
      : f_(std::move(facts)), since_(since), limit_(nodes) {}

  std::vector<Reason> find() {
    if (auto draw = draw_by_force(f_, nodes_)) {
      keep(std::move(draw));
      return std::move(found_);
    }
    std::optional<Reason> men = forced();
    if (men && (is_mate(*men) || !tells_of_more(*men))) {
      keep(std::move(men));
      return std::move(found_);
    }
    // Where the score tells of something greater a pawn, or men by the way, explain nothing.
    if (men && men->gain >= a_piece) keep(std::move(men));
    keep(attack_on_king(f_));
    keep(running_pawn(f_));
    if (!found_.empty()) return std::move(found_);
    if (standing_of(expectation(f_.score)) >= Standing::level) keep(threat_of(f_, nodes_));
    keep(opened_king(f_));
    keep(ending_entered(f_));
    keep(zugzwang());
    return std::move(found_);
  }

  [[nodiscard]] std::uint64_t nodes() const { return nodes_; }

 private:
  void keep(std::optional<Reason> reason) {
    if (!reason || found_.size() == most_reasons) return;
    reason->role = f_.role;
    found_.push_back(std::move(*reason));
  }

  // A mate or men, proved or by best play.
  std::optional<Reason> forced() {
    Proof proof = prove_forced(f_.position, f_.move(), f_.score, limit_, since_);
    nodes_ += proof.nodes;
    std::optional<Reason> told = std::move(proof.reason);
    if (!told || !is_mate(*told)) told = men(std::move(told));
    if (told && told->kind != ReasonKind::wins_back) tell_means(*told, f_);
    return told;
  }

  // The proof says what is won at least, the line what is won against best play.
  std::optional<Reason> men(std::optional<Reason> proved) {
    if (f_.score == search::draw_score || takes_back()) return std::nullopt;
    auto in_line = gain_in_line(f_, since_ != nullptr ? *since_ : f_.position, nodes_);
    if (proved && proved->kind == ReasonKind::wins_material) {
      if (!in_line || in_line->gain < proved->gain) return proved;
      if (in_line->gain == proved->gain) in_line->kind = ReasonKind::wins_material;
      return in_line;
    }
    if (in_line) return in_line;
    return proved && wins_back_more(*proved) ? proved : std::nullopt;
  }

  // Of a best move alone: a recapture is plain.
  [[nodiscard]] bool takes_back() const {
    return f_.role == Role::best && f_.last && f_.before.is_capture(f_.last) &&
           f_.move().to() == f_.last.to();
  }

  // Of a best move alone: to take back is no refutation. What was not taken cannot be won back, and
  // a pawn for a piece is none won back.
  [[nodiscard]] bool wins_back_more(const Reason& back) const {
    if (f_.role != Role::best || !f_.last) return false;
    const search::Score taken = search::nominal_balance(f_.position, ~f_.side()) -
                                search::nominal_balance(f_.before, ~f_.side());
    return back.gain <= taken && 2 * back.gain >= taken;
  }

  [[nodiscard]] bool tells_of_more(const Reason& men) const {
    return f_.score > f_.material() + men.gain + more_than_men;
  }

  std::optional<Reason> zugzwang() const {
    if (standing_of(expectation(f_.score)) < Standing::level || !found_.empty()) return {};
    if (!is_zugzwang(PlayedLine(f_.position, f_.line, {}))) return {};
    return f_.reason(ReasonKind::zugzwang);
  }

  MoveFacts f_;
  const rules::Position* since_;
  std::uint64_t limit_;  // of one proof
  std::uint64_t nodes_ = 0;
  std::vector<Reason> found_;
};

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
    const bool took = e_.last && e_.before.is_capture(e_.last);
    const bool told = explain(facts, took ? &e_.before : nullptr);
    if (other == m_.best || facts.score <= -search::min_mate_score) return;
    auto met = prevented_by(facts, other, m_.nodes);
    if (met && !(told && is_mate(m_.reasons.back()))) m_.reasons.push_back(std::move(*met));
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
    if (role == Role::second_reply && answers_the_best_too(facts)) return;
    explain(facts, &m_.position);
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
  bool explain(const MoveFacts& facts, const rules::Position* since) {
    MoveReasons reasons(facts, since, nodes_);
    std::vector<Reason> found = reasons.find();
    m_.nodes += reasons.nodes();
    const bool any = !found.empty();
    for (Reason& reason : found) m_.reasons.push_back(std::move(reason));
    return any;
  }

  // A capture that the best move's own line answers it with as well, and that wins as much there by
  // counting the exchange, refutes nothing.
  [[nodiscard]] bool answers_the_best_too(const MoveFacts& facts) const {
    const rules::Move reply = facts.move();
    if (m_.line.size() < 2 || m_.line[1] != reply) return false;
    const rules::Position after_best = m_.position.after(m_.best);
    if (!facts.position.is_capture(reply) || !after_best.is_capture(reply)) return false;
    const search::Score wins = search::exchange_value(facts.position, reply);
    return wins > 0 && search::exchange_value(after_best, reply) >= wins;
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
    case Kind::ended_early:
      reasoning.of_best(m.second);
      return reasoning.motif_of_best();
    case Kind::claim:
      return;
  }
}

}  // namespace kairos::study
