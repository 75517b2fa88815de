#include "evidence.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::study {

namespace {

// A move is as good as the best when it costs no more than this.
constexpr double as_good = 0.03;
// No kind of moment is about a smaller gap between the best move and the second.
constexpr double least_gap = 0.10;

struct Looker {
  Evidence& e;
  const Settings& settings;
  search::Searcher& searcher;

  Judgement judge_move(rules::Move move) const {
    // Half the effort for one line where the position itself had all of it for two.
    Judgement j = judge(e.position, e.earlier, move, settings.effort.verify_nodes / 2, searcher);
    e.nodes += j.nodes;
    return j;
  }

  void judge_best() const {
    Judgement j = judge_move(e.best);
    e.best_score = std::min(e.best_score, j.score);
    e.line.assign(1, e.best);
    e.line.insert(e.line.end(), j.replies.begin(), j.replies.end());
  }

  void judge_played() const {
    Judgement j = judge_move(e.played);
    e.played_score = j.score;
    e.refutation = std::move(j.replies);
    const auto& lines = e.verdict.lines;
    if (lines.size() > 1 && lines[1].moves.front() == e.played) {
      e.played_score = std::max(e.played_score, lines[1].score);
    }
    raise_second(e.played, e.played_score);
  }

  void played_is_best() const {
    e.played_score = e.best_score;
    e.refutation.assign(e.line.begin() + 1, e.line.end());
  }

  void judge_second() const {
    if (e.verdict.lines.size() < 2) return;
    const rules::Move second = e.verdict.lines[1].moves.front();
    if (second != e.played) raise_second(second, judge_move(second).score);
  }

  void raise_second(rules::Move move, search::Score score) const {
    if (score <= e.second_score) return;
    e.second = move;
    e.second_score = score;
  }
};

}  // namespace

double Evidence::best_expectation() const {
  return expectation(best_score);
}

double Evidence::gap() const {
  return expectation(best_score) - expectation(second_score);
}

double Evidence::cost() const {
  return expectation(best_score) - expectation(played_score);
}

bool Evidence::held_before(double least_gap) const {
  if (verdict.history.size() < 2) return false;
  const search::Iteration& previous = verdict.history[verdict.history.size() - 2];
  return previous.best == best &&
         expectation(previous.score) - expectation(previous.second_score) >= least_gap;
}

std::vector<rules::Key> keys_before(const Study& study, int ply) {
  std::vector<rules::Key> keys;
  rules::Position p = study.start;
  for (int i = 0; i < ply; ++i) {
    keys.push_back(p.key());
    p.play(study.moves[static_cast<std::size_t>(i)]);
  }
  return keys;
}

Evidence look_closer(const Study& study, int ply, const Settings& settings,
                     search::Searcher& searcher) {
  const auto at = static_cast<std::size_t>(ply);
  Evidence e;
  e.ply = ply;
  e.position = position_after(study, at);
  e.earlier = keys_before(study, ply);
  if (at > 0) {
    e.before = position_after(study, at - 1);
    e.last = study.moves[at - 1];
  }
  if (at < study.moves.size()) e.played = study.moves[at];
  e.legal_moves = rules::count_legal_moves(e.position);
  if (e.legal_moves == 0) return e;

  search::Limits limits;
  limits.nodes = settings.effort.verify_nodes;
  limits.lines = 2;
  e.verdict = searcher.search(e.position, e.earlier, limits);
  e.nodes = e.verdict.nodes;
  const search::Line& first = e.verdict.lines.front();
  e.best = first.moves.front();
  e.best_score = first.score;
  e.second_score = e.best_score;
  if (e.verdict.lines.size() > 1) {
    e.second = e.verdict.lines[1].moves.front();
    e.second_score = e.verdict.lines[1].score;
  }
  e.line = first.moves;

  const Looker looker{e, settings, searcher};
  if (e.played && e.played != e.best) looker.judge_played();
  // Further searches only lower the best and raise the others: without a sign, there is no moment.
  const bool may_be_unique = e.gap() >= least_gap;
  if (may_be_unique || !e.played || e.cost() >= settings.swing_cost) looker.judge_best();
  if (e.played == e.best) looker.played_is_best();
  if (may_be_unique) looker.judge_second();
  return e;
}

Moment moment_of(const Evidence& e, Kind kind) {
  Moment m;
  m.kind = kind;
  m.ply = e.ply;
  m.position = e.position;
  m.played = e.played;
  m.best = e.best;
  m.best_score = e.best_score;
  m.second_score = e.second_score;
  m.played_score = e.played_score;
  m.found = e.played && (e.played == e.best || e.cost() <= as_good);
  m.line = e.line;
  m.refutation = e.refutation;
  m.nodes = e.nodes;
  return m;
}

}  // namespace kairos::study
