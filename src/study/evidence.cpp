// The evidence behind a moment: the position searched, then every move that matters, each with the
// same effort, until the two views agree.
//
// A search of a position and the searches after its moves may differ: the one that looked at the
// move itself has seen more. Where they differ by much the position is searched again with what the
// table has learned, a few times at the most; what still does not agree is no evidence. A first
// look is a short one; what may be a moment gets a close one, and a close call between a moment and
// none another with several times the nodes. Example: a queen sacrifice that the first search
// passes over looks winning once played; the second search finds it. Tests:
// tests/study/moments_test.cpp.
#include "evidence.hpp"

#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::study {

namespace {

// A move is as good as the best when it costs no more than this.
constexpr double as_good = 0.05;
// No kind of moment is about a smaller gap between the best move and the second.
constexpr double least_gap = 0.10;
// A best move that falls by so much when it is looked at again is searched for anew.
constexpr double surprise = 0.12;
constexpr int most_rounds = 3;
constexpr std::uint64_t closer_look = 3;         // times the nodes of the look before
constexpr std::uint64_t first_look_divisor = 4;  // of the verify effort

// One look: all its searches have the same effort, whatever the look before spent: with less than
// the whole of it the table repeats what that look believed.
class Look {
 public:
  Look(Evidence& evidence, const Evidence* next, search::Searcher& searcher, std::uint64_t effort)
      : e_(evidence), next_(next), searcher_(searcher), effort_(effort) {}

  // The position first, then the moves. Where a move turns out to be worth something else than the
  // position's search believed, that search is done again: with what the table now holds, it knows.
  void look(double swing_cost) {
    e_.effort = effort_;
    for (int round = 1;; ++round) {
      search_position();
      if (e_.played && e_.played != e_.best) search_played();
      if (is_settled(swing_cost)) return;
      const search::Score believed = e_.best_score;
      search_best();
      const double fall = expectation(believed) - expectation(e_.best_score);
      const double excess =
          e_.played ? expectation(e_.played_score) - expectation(e_.best_score) : 0;
      if (round == most_rounds || (fall < surprise && excess < as_good)) break;
    }
    if (e_.gap() >= least_gap) search_second();
  }

 private:
  void search_position() {
    search::Limits limits;
    limits.nodes = effort_;
    limits.lines = 2;
    e_.verdict = searcher_.search(e_.position, e_.earlier, limits);
    e_.nodes += e_.verdict.nodes;
    const search::Line& first = e_.verdict.lines.front();
    e_.best = first.moves.front();
    e_.best_score = e_.second_score = first.score;
    e_.line = first.moves;
    e_.second_refutation.clear();  // of the second that the look before had
    if (e_.verdict.lines.size() < 2) return;
    e_.second = e_.verdict.lines[1].moves.front();
    e_.second_score = e_.verdict.lines[1].score;
  }

  // Further searches only lower the best and raise the others: without a sign by now, there is no
  // moment. A best move that was played is searched all the same: it may be the error itself.
  [[nodiscard]] bool is_settled(double swing_cost) const {
    return e_.played && e_.played != e_.best && e_.gap() < least_gap && e_.cost() < swing_cost &&
           e_.cost() > -as_good;
  }

  // Half the effort for one line where the position itself had all of it for two.
  [[nodiscard]] std::uint64_t nodes_for_a_move() const { return effort_ / 2; }

  // What the next ply's look found of the move played, when it looked as closely.
  [[nodiscard]] bool next_knows(rules::Move move) const {
    return next_ != nullptr && move == e_.played && next_->effort >= effort_ / 2 &&
           !next_->line.empty();
  }

  MoveVerdict verdict_on(rules::Move move) {
    if (next_knows(move)) {
      MoveVerdict j;
      j.score = seen_from_before(next_->best_score);
      j.replies = next_->line;
      return j;
    }
    MoveVerdict j = search_move(e_.position, e_.earlier, move, nodes_for_a_move(), searcher_);
    e_.nodes += j.nodes;
    return j;
  }

  void search_best() {
    MoveVerdict j = verdict_on(e_.best);
    e_.best_score = std::min(e_.best_score, j.score);
    e_.line.assign(1, e_.best);
    e_.line.insert(e_.line.end(), j.replies.begin(), j.replies.end());
    if (e_.played != e_.best) return;
    e_.played_score = e_.best_score;
    e_.refutation = std::move(j.replies);
  }

  void search_played() {
    MoveVerdict j = verdict_on(e_.played);
    e_.played_score = j.score;
    e_.refutation = std::move(j.replies);
    if (e_.played == e_.second) e_.played_score = std::max(e_.played_score, e_.second_score);
    raise_second(e_.played, e_.played_score);
  }

  void search_second() {
    if (e_.second == e_.played) e_.second_refutation = e_.refutation;
    if (!e_.second || e_.second == e_.played) return;
    MoveVerdict j = verdict_on(e_.second);
    raise_second(e_.second, j.score);
    e_.second_refutation = std::move(j.replies);
  }

  void raise_second(rules::Move move, search::Score score) {
    if (score <= e_.second_score) return;
    e_.second = move;
    e_.second_score = score;
  }

  Evidence& e_;
  const Evidence* next_;
  search::Searcher& searcher_;
  std::uint64_t effort_;  // nodes for a search of the position
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

bool Evidence::erred_by(double least) const {
  return played && played != best && cost() >= least;
}

bool Evidence::held_before(double gap) const {
  if (best_score >= search::min_mate_score) return true;  // a forced mate stays one
  if (verdict.history.size() < 2) return false;
  const search::Iteration& previous = verdict.history[verdict.history.size() - 2];
  return previous.best == best &&
         expectation(previous.score) - expectation(previous.second_score) >= gap;
}

Evidence Looker::first_look(int ply, const Evidence* next) const {
  const auto at = static_cast<std::size_t>(ply);
  Evidence e;
  e.ply = ply;
  e.position = sheet_.positions[at];
  e.earlier = sheet_.keys_before(ply);
  if (at > 0) e.before = sheet_.positions[at - 1];
  e.last = sheet_.move_at(ply - 1);
  e.played = sheet_.move_at(ply);
  e.legal_moves = rules::count_legal_moves(e.position);
  if (e.legal_moves == 0) return e;
  // Not 0, of which no deeper look would be more.
  const std::uint64_t part = settings_.effort.verify_nodes / first_look_divisor;
  Look(e, next, searcher_, std::max(part, std::uint64_t{1})).look(settings_.swing_cost);
  return e;
}

void Looker::look_closer(Evidence& e, const Evidence* next) const {
  Look(e, next, searcher_, settings_.effort.verify_nodes).look(settings_.swing_cost);
}

void Looker::look_deeper(Evidence& e, const Evidence* next) const {
  Look(e, next, searcher_, e.effort * closer_look).look(settings_.swing_cost);
}

Moment moment_of(const Evidence& e, Kind kind) {
  Moment m;
  m.kind = kind;
  m.ply = e.ply;
  m.position = e.position;
  m.played = e.played;
  m.best = e.best;
  m.second = e.second;
  m.best_score = e.best_score;
  m.second_score = e.second_score;
  m.played_score = e.played_score;
  m.found = e.played && (e.played == e.best || e.cost() <= as_good);
  m.line = e.line;
  m.refutation = e.refutation;
  m.second_refutation = e.second_refutation;
  m.nodes = e.nodes;
  return m;
}

}  // namespace kairos::study
