#include <algorithm>
#include <utility>

#include "kairos/rules/movegen.hpp"
#include "kairos/search/mate.hpp"

#include "exchange.hpp"
#include "worker.hpp"

// Iterative deepening at the root. Each iteration searches the wanted number of lines one after the
// other, each among the moves not yet taken by a better line and inside a window around its score
// of the iteration before, until the score lies inside: so every line's score is exact. When the
// nodes run out the last finished iteration counts; with one line, also a better move that the
// unfinished one had already found.

namespace kairos::search {

using rules::Move;
using rules::Position;

namespace {

constexpr Score first_window = 16;  // half the width of the aspiration window
constexpr int window_depth = 5;     // from this depth on

void sort_from(std::vector<RootMove>& moves, std::size_t first) {
  std::stable_sort(moves.begin() + static_cast<std::ptrdiff_t>(first), moves.end(),
                   [](const RootMove& a, const RootMove& b) { return a.score > b.score; });
}

}  // namespace

Worker::Worker(std::size_t table_bytes, Techniques techniques)
    : techniques_(techniques), table_(table_bytes) {
  frames_.resize(index(max_ply + 2 * frame_margin));
}

void Worker::clear() {
  table_.clear();
  histories_.clear();
  corrections_.clear();
}

Verdict Worker::run(const Position& root, std::span<const rules::Key> earlier,
                    const Limits& limits) {
  prepare(root, earlier, limits);
  list_root_moves(root, limits);
  look_for_forced_mate(root, limits);
  if (root_moves_.empty()) return std::move(verdict_);
  const int lines = std::clamp(limits.lines, 1, static_cast<int>(root_moves_.size()));
  keep_iteration(root, 0, lines);
  const int last = std::clamp(limits.depth, 1, max_ply - 1);
  for (int depth = 1; depth <= last; ++depth) {
    root_depth_ = depth;
    if (!iterate(root, depth, lines)) {
      if (lines == 1) keep_partial(root);
      break;
    }
    keep_iteration(root, depth, lines);
    if (is_final(depth, lines)) break;
  }
  verdict_.nodes = nodes_;
  return std::move(verdict_);
}

void Worker::prepare(const Position& root, std::span<const rules::Key> earlier,
                     const Limits& limits) {
  for (Frame& f : frames_) {
    f.current = f.excluded = {};
    f.killers = {};
    f.row = &histories_.after_nothing();
    f.evaluation = no_score;
    f.reversible = f.pv_length = 0;
  }
  path_.assign(earlier.begin(), earlier.end());
  root_index_ = path_.size();
  path_.resize(root_index_ + index(max_ply));
  path_[root_index_] = root.key();
  frame(0).reversible = root.halfmove_clock();
  frame(0).in_check = root.in_check();
  evaluator_.reset(root);
  if (!frame(0).in_check) frame(0).evaluation = evaluator_.evaluate().score;
  table_.next_generation();
  nodes_ = 0;
  node_limit_ = std::max<std::uint64_t>(1, limits.nodes);
  stop_ = limits.stop;
  stopped_ = false;
  null_barrier_ = 0;
  root_depth_ = 0;
  verdict_ = {};
}

// The moves to search, by a first guess: the static score after each.
void Worker::list_root_moves(const Position& root, const Limits& limits) {
  root_moves_.clear();
  rules::MoveList legal;
  rules::legal_moves(root, legal);
  const auto& wanted = limits.root_moves;
  for (const Move m : legal) {
    if (!wanted.empty() && std::find(wanted.begin(), wanted.end(), m) == wanted.end()) continue;
    const Position next = root.after(m);
    Score guess = draw_score;
    if (rules::has_legal_move(next)) {
      evaluator_.push(next);
      guess = -evaluator_.evaluate().score + std::min(0, exchange_value(root, m));
      evaluator_.pop();
    } else if (next.in_check()) {
      guess = mate_in_plies(1);
    }
    root_moves_.push_back({m, guess, guess, 0, {m}});
  }
  sort_from(root_moves_, 0);
}

// A small part of the nodes goes to mates by checks. One that is found comes first and is the least
// that its move is worth; the search goes on, for there may be a shorter one.
void Worker::look_for_forced_mate(const Position& root, const Limits& limits) {
  constexpr std::uint64_t part = 16, most = 1 << 17;  // so that a stop is heard soon
  constexpr int shallow = 8;  // so shallow a search is asked what is seen at a glance
  forced_mate_ = {};
  if (limits.depth <= shallow || !uses(Technique::mates_by_checks)) return;
  ForcedMate mate = mate_by_checks(root, std::min(node_limit_ / part, most));
  nodes_ += mate.nodes;
  const auto first = std::ranges::find(
      root_moves_, mate.line.moves.empty() ? Move{} : mate.line.moves.front(), &RootMove::move);
  if (first == root_moves_.end()) return;
  forced_mate_ = std::move(mate.line);
  first->score = first->previous = forced_mate_.score;
  first->line = forced_mate_.moves;
  sort_from(root_moves_, 0);
}

bool Worker::iterate(const Position& root, int depth, int lines) {
  for (RootMove& m : root_moves_) m.previous = m.score;
  fail_high_ = {};
  for (std::size_t first = 0; first < index(lines); ++first) {
    if (!search_line(root, depth, first)) return false;
  }
  std::stable_sort(root_moves_.begin(), root_moves_.begin() + lines,
                   [](const RootMove& a, const RootMove& b) { return a.score > b.score; });
  return true;
}

// Finds the best move from `first` on and puts it there with its exact score.
bool Worker::search_line(const Position& root, int depth, std::size_t first) {
  const Score expected = root_moves_[first].previous;
  back_at_root_ =
      first == 0 ? draw_score : std::clamp(root_moves_[0].score, -max_evaluation, max_evaluation);
  Score window = first_window;
  Score alpha = -infinite_score;
  Score beta = infinite_score;
  if (depth >= window_depth && !is_mate(expected) && uses(Technique::aspiration_windows)) {
    alpha = std::max(expected - window, -infinite_score);
    beta = std::min(expected + window, infinite_score);
  }
  for (;;) {
    const Score s = search_root(root, depth, alpha, beta, first);
    if (stopped_) return false;
    sort_from(root_moves_, first);
    if (s <= alpha) {
      beta = (alpha + beta) / 2;
      alpha = std::max(s - window, -infinite_score);
    } else if (s >= beta) {
      fail_high_ = {s, root_moves_[first].line};
      beta = std::min(s + window, infinite_score);
    } else {
      return true;
    }
    window *= 2;
    if (window > 400 || is_mate(s)) {
      alpha = s <= alpha + window || is_mate(s) ? -infinite_score : alpha;
      beta = infinite_score;
    }
  }
}

Score Worker::search_root(const Position& root, int depth, Score alpha, Score beta,
                          std::size_t first) {
  Node n{root, 0, depth, alpha, beta, true, false};
  n.in_check = frame(0).in_check;
  n.improving = true;
  n.raw.score = n.evaluation = n.estimate = frame(0).evaluation;
  frame(1).killers = frame(2).killers = {};
  for (std::size_t i = first; i < root_moves_.size(); ++i) root_moves_[i].score = -infinite_score;
  Score best = -infinite_score;
  for (std::size_t i = first; i < root_moves_.size(); ++i) {
    RootMove& entry = root_moves_[i];
    const int move_count = static_cast<int>(i - first) + 1;
    const bool noisy = root.is_capture(entry.move) || entry.move.is_promotion();
    const int reduction = reduction_of(n, entry.move, move_count, 0, noisy);
    const std::uint64_t before = nodes_;
    const Position next = root.after(entry.move);
    make(root, entry.move, next, 0, root.gives_check(entry.move));
    Score s = search_child(n, next, move_count, depth - 1, reduction);
    unmake();
    entry.nodes += nodes_ - before;
    if (stopped_) return best;
    const bool is_forced = !forced_mate_.moves.empty() &&
                           entry.move == forced_mate_.moves.front() && s < forced_mate_.score;
    if (is_forced) s = forced_mate_.score;
    if (move_count == 1 || s > n.alpha) {
      entry.score = s;
      update_pv(0, entry.move);
      entry.line.assign(frame(0).pv.begin(), frame(0).pv.begin() + frame(0).pv_length);
      if (is_forced) entry.line = forced_mate_.moves;
    }
    if (s <= best) continue;
    best = s;
    n.alpha = std::max(n.alpha, s);
    if (s >= beta) break;
  }
  if (first == 0 && best > alpha) {
    const auto top =
        std::max_element(root_moves_.begin(), root_moves_.end(),
                         [](const RootMove& a, const RootMove& b) { return a.score < b.score; });
    table_.store(root.key(), top->move, to_table(best, 0), n.raw.score, depth,
                 best >= beta ? Bound::lower : Bound::exact, true);
  }
  return best;
}

void Worker::keep_iteration(const Position& root, int depth, int lines) {
  verdict_.lines.clear();
  for (std::size_t i = 0; i < index(lines); ++i) {
    verdict_.lines.push_back({root_moves_[i].score, root_moves_[i].line});
    extend_line(root, verdict_.lines.back());
  }
  if (depth == 0) return;
  verdict_.depth = depth;
  const Line& best = verdict_.lines.front();
  const Score second = lines > 1 ? verdict_.lines[1].score : best.score;
  verdict_.history.push_back({depth, nodes_, best.moves.front(), best.score, second});
}

// Takes over a move that the unfinished iteration had shown to be better than all before it.
void Worker::keep_partial(const Position& root) {
  const auto best =
      std::max_element(root_moves_.begin(), root_moves_.end(),
                       [](const RootMove& a, const RootMove& b) { return a.score < b.score; });
  Line found = std::move(fail_high_);
  if (best->score != -infinite_score) found = {best->score, best->line};
  if (found.moves.empty() || found.moves.front() == verdict_.lines.front().moves.front()) return;
  verdict_.lines.front() = std::move(found);
  extend_line(root, verdict_.lines.front());
}

// Lengthens a line by the table's moves, as far as they are legal and bring no position again.
void Worker::extend_line(const Position& root, Line& line) {
  std::vector<rules::Key> seen(path_.begin(),
                               path_.begin() + static_cast<std::ptrdiff_t>(root_index_) + 1);
  Position p = root;
  for (const Move m : line.moves) {
    p.play(m);
    seen.push_back(p.key());
  }
  const int mate = is_mate(line.score) ? mate_score - std::abs(line.score) : 0;
  const std::size_t wanted = index(std::max(root_depth_, mate));
  while (line.moves.size() < wanted) {
    const Found found = table_.probe(p.key());
    if (!found.move || !rules::is_legal(p, found.move)) return;
    p.play(found.move);
    if (std::find(seen.begin(), seen.end(), p.key()) != seen.end()) return;
    seen.push_back(p.key());
    line.moves.push_back(found.move);
  }
}

// Whether more depth cannot change anything: all lines end in mates well inside the depth searched.
bool Worker::is_final(int depth, int lines) const {
  for (std::size_t i = 0; i < index(lines); ++i) {
    const Score s = verdict_.lines[i].score;
    if (!is_mate(s) || depth < 2 * (mate_score - std::abs(s)) + 6) return false;
  }
  return true;
}

}  // namespace kairos::search
