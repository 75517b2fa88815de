#include "kairos/study/weigh.hpp"

#include <algorithm>

#include "kairos/search/settled.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/forced.hpp"

namespace kairos::study {

namespace {

// Material counts for something only where it leaves its winner better, and where the score does
// not tell of much more than it. `balance` is the winner's, where the gain is counted from.
bool is_the_point(const Reason& reason, search::Score score, search::Score balance) {
  constexpr search::Score slack = 300;
  if (reason.kind == ReasonKind::wins_back) return false;
  if (reason.kind != ReasonKind::wins_material) return true;
  const Standing standing = standing_of(expectation(score));
  return (standing == Standing::won || standing == Standing::better) &&
         score <= balance + 2 * reason.gain + slack;
}

std::optional<Reason> reason_of(const rules::Position& p, rules::Move move, search::Score score,
                                std::uint64_t nodes, const rules::Position* since) {
  std::optional<Reason> reason = prove_forced(p, move, score, proof_nodes(nodes), since).reason;
  const search::Score balance =
      search::nominal_balance(since != nullptr ? *since : p, p.side_to_move());
  if (!reason || !is_the_point(*reason, score, balance)) return std::nullopt;
  reason->role = since != nullptr ? Role::reply : Role::best;
  return reason;
}

}  // namespace

Weighed weigh(const rules::Position& position, rules::Move move, const MoveVerdict& verdict,
              search::Score best_score, std::uint64_t nodes) {
  Weighed w;
  w.move = move;
  w.score = verdict.score;
  w.best_score = best_score;
  w.expectation = expectation(w.score);
  w.cost = std::max(0.0, expectation(best_score) - w.expectation);
  const bool mated = w.score <= -search::min_mate_score && best_score > -search::min_mate_score;
  w.is_good = w.cost < even_cost && !mated;
  const std::vector<rules::Move>& replies = verdict.replies;
  if (w.is_good) {
    w.reason = reason_of(position, move, w.score, nodes, nullptr);
  } else if (!replies.empty()) {
    w.reason = reason_of(position.after(move), replies.front(), seen_from_before(w.score), nodes,
                         &position);
  }
  const bool shows_material = w.reason && w.reason->kind == ReasonKind::wins_material;
  const std::vector<rules::Move>& shown = shows_material ? w.reason->line : replies;
  if (!shows_material || !w.is_good) w.line.push_back(move);
  w.line.insert(w.line.end(), shown.begin(), shown.end());
  return w;
}

}  // namespace kairos::study
