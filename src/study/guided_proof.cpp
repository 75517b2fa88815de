#include "guided_proof.hpp"

#include <algorithm>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/study/forced.hpp"

namespace kairos::study {

namespace {

// Moves the guide may name against one reply: the second is for when the first takes too long.
constexpr int answers_asked = 2;
constexpr int settled_plies = 5;
// Each of some dozen replies needs a proof of its own. (Published quiet wins took up to nine times
// the nodes of proof_nodes, one of the samples sixteen times; tries that fail took five hundred.)
constexpr std::uint64_t proofs_in_all = 20;

class Prover {
 public:
  Prover(rules::Color attacker, search::Score target, const GuidedLimits& limits,
         search::Searcher& searcher, std::vector<rules::Key> keys)
      : attacker_(attacker),
        target_(target),
        limits_(limits),
        searcher_(searcher),
        keys_(std::move(keys)) {}

  // `p` is with the defender to move; true when every reply leaves the attacker his target.
  bool holds(const rules::Position& p, int answers) {
    rules::MoveList replies;
    rules::legal_moves(p, replies);
    if (replies.empty()) return p.in_check();
    keys_.push_back(p.key());
    bool all = true;
    for (const rules::Move reply : replies) {
      all = all && is_met(p.after(reply), answers);
    }
    keys_.pop_back();
    return all;
  }

  [[nodiscard]] std::uint64_t nodes() const { return nodes_; }

 private:
  // `p` is with the attacker to move.
  bool is_met(const rules::Position& p, int answers) {
    if (nodes_ >= limits_.total || rules::game_status(p, keys_) != rules::GameStatus::open)
      return false;
    const search::Settled settled = search::settle(p, limits_.settled);
    nodes_ += settled.nodes;
    if (settled.complete && search::nominal_balance(p, attacker_) + settled.gain >= target_)
      return true;
    if (answers == 0 || searches_ == limits_.searches) return false;
    ++searches_;
    search::Limits limits;
    limits.nodes = limits_.nodes;
    limits.lines = answers_asked;
    const search::Verdict verdict = searcher_.search(p, keys_, limits);
    nodes_ += verdict.nodes;
    return std::any_of(verdict.lines.begin(), verdict.lines.end(),
                       [&](const search::Line& line) { return wins(p, line, answers - 1); });
  }

  // Whether the guide's move keeps the target against every reply.
  bool wins(const rules::Position& p, const search::Line& line, int answers) {
    if (line.score >= search::min_mate_score) return true;
    if (line.score <= 0) return false;
    keys_.push_back(p.key());
    const bool held = holds(p.after(line.moves.front()), answers);
    keys_.pop_back();
    return held;
  }

  rules::Color attacker_;
  search::Score target_;
  const GuidedLimits& limits_;
  search::Searcher& searcher_;
  std::vector<rules::Key> keys_;
  int searches_ = 0;
  std::uint64_t nodes_ = 0;
};

}  // namespace

GuidedLimits::GuidedLimits(std::uint64_t verify_nodes)
    : nodes(std::clamp<std::uint64_t>(verify_nodes / 10, 10'000, 100'000)),
      settled{settled_plies, proof_nodes(verify_nodes)},
      total(proofs_in_all * proof_nodes(verify_nodes)) {}

GuidedProof prove_gain(const rules::Position& position, std::span<const rules::Key> earlier,
                       rules::Move move, search::Score gain, const GuidedLimits& limits,
                       search::Searcher& searcher) {
  const rules::Color attacker = position.side_to_move();
  std::vector<rules::Key> keys(earlier.begin(), earlier.end());
  keys.push_back(position.key());
  Prover prover(attacker, search::nominal_balance(position, attacker) + gain, limits, searcher,
                std::move(keys));
  GuidedProof proof;
  proof.proved = prover.holds(position.after(move), limits.answers);
  proof.nodes = prover.nodes();
  return proof;
}

}  // namespace kairos::study
