// Which facts are looked for, by the kind of moment: what the reply to an error or a trap does by
// force, what the best move does, why the second best fails, and the motif of the move that makes
// the moment. A fact that is not sure is left out rather than guessed.
#include "reasons.hpp"

#include "kairos/study/forced.hpp"
#include "kairos/study/motifs.hpp"

namespace kairos::study {

namespace {

class Reasoning {
 public:
  Reasoning(const Evidence& evidence, Moment& moment, const Settings& settings)
      : e_(evidence), m_(moment), nodes_(proof_nodes(settings.effort.verify_nodes)) {}

  // Of material more than the move before has taken, or else what that took.
  void forced_by_best() {
    const bool took = e_.last && e_.before.is_capture(e_.last);
    keep(Role::best,
         prove_forced(m_.position, m_.best, m_.best_score, nodes_, took ? &e_.before : nullptr));
  }

  // `score` is that of the move replied to, from the side that makes it. What that move took counts
  // against the reply, and to take it back is no refutation.
  void forced_by_reply(Role role, const std::vector<rules::Move>& replies, search::Score score) {
    if (replies.empty()) return;
    Proof proof = prove_forced(position_of(m_, role), replies.front(), seen_from_before(score),
                               nodes_, &m_.position);
    if (proof.reason && proof.reason->kind == ReasonKind::wins_back) proof.reason.reset();
    keep(role, std::move(proof));
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
  void keep(Role role, Proof proof) {
    m_.nodes += proof.nodes;
    if (!proof.reason) return;
    proof.reason->role = role;
    m_.reasons.push_back(std::move(*proof.reason));
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
      reasoning.forced_by_reply(Role::reply, m.refutation, m.played_score);
      reasoning.forced_by_best();
      return reasoning.motif_of_reply();
    case Kind::only_move:
      reasoning.forced_by_reply(Role::second_reply, m.second_refutation, m.second_score);
      return reasoning.motif_of_best();
    case Kind::trap:
      reasoning.forced_by_reply(Role::reply, m.refutation, m.tempting_score);
      return reasoning.motif_of_reply();
    case Kind::quiet_win:
    case Kind::ended_early:
      reasoning.forced_by_best();
      return reasoning.motif_of_best();
    case Kind::claim:
      return;
  }
}

}  // namespace kairos::study
