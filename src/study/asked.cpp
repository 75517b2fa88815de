#include "kairos/study/asked.hpp"

#include <algorithm>

#include "kairos/study/expectation.hpp"
#include "kairos/study/weighed.hpp"

#include "reasons.hpp"

namespace kairos::study {

namespace {

// People wait: a proof takes no more, however long the search went on.
constexpr std::uint64_t most_proof_nodes = 400'000;

constexpr search::Score a_man = 300;

std::vector<rules::Move> line_of(const JudgedMove& judged) {
  std::vector<rules::Move> line = {judged.move};
  line.insert(line.end(), judged.verdict.replies.begin(), judged.verdict.replies.end());
  return line;
}

void set_best(Moment& m, const JudgedMove& best) {
  m.best = best.move;
  m.best_score = m.second_score = best.verdict.score;
  m.line = line_of(best);
}

void set_second(Moment& m, const JudgedMove& second) {
  m.second = second.move;
  m.second_score = second.verdict.score;
  m.second_refutation = second.verdict.replies;
}

// The best of all but one; nullptr where there is no other.
const JudgedMove* best_but(std::span<const JudgedMove> judged, rules::Move out) {
  const JudgedMove* best = nullptr;
  for (const JudgedMove& other : judged) {
    if (other.move == out) continue;
    if (best == nullptr || other.verdict.score > best->verdict.score) best = &other;
  }
  return best;
}

}  // namespace

std::size_t best_of(std::span<const JudgedMove> judged) {
  const auto best =
      std::ranges::max_element(judged, {}, [](const JudgedMove& one) { return one.verdict.score; });
  return static_cast<std::size_t>(best - judged.begin());
}

bool is_as_good(const JudgedMove& move, const JudgedMove& best) {
  const search::Score score = move.verdict.score, most = best.verdict.score;
  const bool mated = score <= -search::min_mate_score && most > -search::min_mate_score;
  // Where all is lost the expectation tells no more what a move gives away.
  const bool lost = standing_of(expectation(most)) == Standing::lost && most - score >= a_man;
  return !mated && !lost && expectation(most) - expectation(score) < even_cost;
}

Moment moment_of_asked(const AskedPlace& place, std::span<const JudgedMove> judged,
                       std::uint64_t nodes) {
  const JudgedMove &asked = judged.front(), &best = judged[best_of(judged)];
  const bool good = is_as_good(asked, best);
  Moment m;
  m.kind = good ? Kind::only_move : Kind::swing;
  m.position = place.position;
  m.played = asked.move;
  m.played_score = asked.verdict.score;
  m.found = good;
  m.refutation = asked.verdict.replies;
  set_best(m, good ? asked : best);
  if (const JudgedMove* const second = best_but(judged, m.best)) set_second(m, *second);

  Evidence evidence;
  evidence.position = place.position;
  evidence.earlier = place.earlier;
  evidence.before = place.before;
  evidence.last = place.last;
  Settings settings;
  settings.effort.verify_nodes = std::min(nodes, most_proof_nodes);
  give_reasons(evidence, settings, m);
  return m;
}

}  // namespace kairos::study
