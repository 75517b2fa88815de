#include "unique.hpp"

#include "kairos/study/expectation.hpp"

namespace kairos::puzzle {

namespace {

bool apart(search::Score best, search::Score second) {
  return study::expectation(best) - study::expectation(second) >= unique_gap;
}

Drop fault_of(const Answer& answer) {
  const auto& lines = answer.verdict.lines;
  if (lines.size() < 2) return Drop::none;
  if (!apart(answer.score, answer.second_score)) return Drop::cook;
  if (answer.score >= search::min_mate_score) return Drop::none;  // a forced mate stays one
  const auto& history = answer.verdict.history;
  if (history.size() < 2) return Drop::not_stable;
  const search::Iteration& before = history[history.size() - 2];
  const bool same = before.best == answer.key && apart(before.score, before.second_score);
  return same ? Drop::none : Drop::not_stable;
}

}  // namespace

Answer answer_of(const rules::Position& position, std::span<const rules::Key> earlier,
                 std::uint64_t nodes, search::Searcher& searcher) {
  search::Limits limits;
  limits.nodes = nodes;
  limits.lines = 2;
  Answer answer;
  answer.verdict = searcher.search(position, earlier, limits);
  const auto& lines = answer.verdict.lines;
  if (lines.empty()) {
    answer.drop = Drop::not_a_puzzle;
    return answer;
  }
  answer.key = lines.front().moves.front();
  answer.score = lines.front().score;
  answer.second_score = lines.size() > 1 ? lines[1].score : answer.score;
  answer.drop = fault_of(answer);
  return answer;
}

}  // namespace kairos::puzzle
