#include <algorithm>

#include "exchange.hpp"
#include "worker.hpp"

// Principal variation search: the first move of a node is searched with the full window, the others
// only to show that they are no better, with less depth the later they come; what surprises is
// searched again. Before the moves, a node may be cut because the static score is far above beta
// (or stays above after passing the turn), or far below alpha. What each rule gained when measured
// stands in MEASURED.md.

namespace kairos::search {

using rules::Move;
using rules::Position;

namespace {

// Binary logarithm in 256ths, by integers alone so that every machine has the same table.
constexpr int log2_256(unsigned n) {
  int whole = 0;
  while (n >> (whole + 1) != 0) ++whole;
  // Fraction bits by repeated squaring of n / 2^whole, held in 16.16.
  std::uint64_t x = (std::uint64_t{n} << 16) >> whole;
  int result = whole;
  for (int i = 0; i < 8; ++i) {
    x = (x * x) >> 16;
    result *= 2;
    if (x >= std::uint64_t{2} << 16) {
      x >>= 1;
      ++result;
    }
  }
  return result;
}

// Plies, in 256ths, by which the n-th move at a depth is reduced: grows with both logarithms.
constexpr int reduction_base = 60;
constexpr int reduction_slope = 68;  // in 256ths per product of logarithms
constexpr auto logarithms = [] {
  std::array<int, 256> table{};
  for (unsigned n = 1; n < table.size(); ++n) table[n] = log2_256(n);
  return table;
}();

int base_reduction(int depth, int move_count) {
  const int product =
      logarithms[index(std::min(depth, 255))] * logarithms[index(std::min(move_count, 255))] / 256;
  return reduction_base + product * reduction_slope / 256;
}

}  // namespace

Score Worker::search(const Position& position, int ply, int depth, Score alpha, Score beta,
                     bool cut) {
  if (depth <= 0) return quiesce(position, ply, 0, alpha, beta);
  frame(ply).pv_length = 0;
  if (!enter()) return draw_score;
  Node n{position, ply, std::min(depth, max_ply - 1), alpha, beta, beta - alpha > 1, cut};
  if (const Score s = early_result(n); s != no_score) return s;
  evaluate_node(n);
  if (const Score s = prune_node(n); s != no_score) return s;
  if (n.depth >= 4 && !n.found.move && (n.pv || n.cut) && !frame(ply).excluded &&
      uses(Technique::internal_reduction))
    --n.depth;
  return search_moves(n);
}

// From this move on quiet ones are left out unless they give check.
bool Worker::is_late(const Node& n, int move_count) const {
  return n.depth <= 8 && move_count > (6 + n.depth * n.depth) / (n.improving ? 1 : 2) &&
         uses(Technique::late_move_pruning);
}

// Whether a late or losing move may be left out unseen.
bool Worker::is_prunable(const Node& n, const MovePicker& picker, Move m, int move_count,
                         int reduction, bool noisy, bool check) const {
  const int depth = std::max(0, n.depth - 1 - reduction / 256);
  const auto loses = [&](Score too_much) {
    return !exchange_at_least(n.position, m, -too_much) && uses(Technique::exchange_pruning);
  };
  if (noisy) return n.depth <= 7 && loses(100 * n.depth);
  if (n.in_check) return false;
  if (check) return n.depth <= 6 && loses(50 * n.depth);
  if (is_late(n, move_count)) return true;
  if (depth <= 7 && n.evaluation + 120 + 90 * depth <= n.alpha &&
      uses(Technique::futility_pruning)) {
    return true;
  }
  if (depth <= 4 && picker.history_of_last(m) < -4000 * (depth + 1) &&
      uses(Technique::history_pruning)) {
    return true;
  }
  return depth <= 8 && loses(24 * depth * depth);
}

// A table move that alone holds the score up is searched deeper. When even the others beat beta,
// the node is cut: `cut_score` then says so.
int Worker::extension_of(Node& n, Move m, Score& cut_score) {
  Frame& f = frame(n.ply);
  const bool test = m == n.found.move && uses(Technique::singular_extensions) && !f.excluded &&
                    n.depth >= 6 && n.found.depth >= n.depth - 3 && n.found.bound != Bound::upper &&
                    n.found.score != no_score && !is_mate(n.found.score) && n.ply < 2 * root_depth_;
  if (!test) return 0;
  const Score bar = n.found.score - 2 * n.depth;
  f.excluded = m;
  const Score others = search(n.position, n.ply, (n.depth - 1) / 2, bar - 1, bar, n.cut);
  f.excluded = {};
  if (stopped_) return 0;
  if (others < bar) return !n.pv && others < bar - 24 ? 2 : 1;
  if (bar >= n.beta) {
    cut_score = bar;
    return 0;
  }
  return n.found.score >= n.beta ? -2 : n.cut ? -1 : 0;
}

int Worker::reduction_of(const Node& n, Move m, int move_count, int history, bool noisy) const {
  int r = base_reduction(n.depth, move_count);
  if (n.pv) r -= 256;
  if (n.cut) r += 512;
  if (!n.improving) r += 256;
  if (n.in_check) r -= 128;
  if (m == frame(n.ply).killers[0] || m == frame(n.ply).killers[1]) r -= 256;
  if (noisy) r -= 256;
  return r - history / 48;
}

// Searches one move: full window for the first, else reduced and narrow until it surprises.
Score Worker::search_child(const Node& n, const Position& next, int move_count, int depth,
                           int reduction) {
  const int ply = n.ply + 1;
  const Score alpha = n.alpha;
  Score s = 0;
  bool full = n.pv && move_count == 1;
  if (!full) {
    const bool late =
        n.depth >= 2 && move_count > 1 + (n.pv ? 1 : 0) && uses(Technique::late_move_reductions);
    const int reduced = late ? std::clamp(depth - reduction / 256, 1, depth + 1) : depth;
    const bool child_cut = late || !n.cut;
    s = -search(next, ply, reduced, -alpha - 1, -alpha, child_cut);
    if (stopped_) return draw_score;
    if (s > alpha && reduced < depth) {
      s = -search(next, ply, depth, -alpha - 1, -alpha, !n.cut);
      if (stopped_) return draw_score;
    }
    full = n.pv && s > alpha;
  }
  if (full) s = -search(next, ply, depth, -n.beta, -alpha, false);
  return stopped_ ? draw_score : s;
}

Score Worker::search_moves(Node& n) {
  const Position& p = n.position;
  Frame& f = frame(n.ply);
  const OrderingHints hints = hints_at(n.ply);
  const Move excluded = f.excluded;
  const rules::Checks checks(p);
  MovePicker picker(p, histories_, hints, n.found.move, MovePicker::Mode::full, n.in_check, checks);
  picker.leave_out(excluded);
  TriedMoves quiets, captures;
  Move best_move;
  Score best = -infinite_score;
  int move_count = 0;
  const bool may_prune = has_pieces(p, p.side_to_move());
  const auto only_checks = [&] {
    return may_prune && best > -min_mate_score && !n.in_check && is_late(n, move_count + 1);
  };
  while (const Move m = picker.next(only_checks())) {
    move_count += picker.take_passed_over();
    if (m == excluded) continue;
    ++move_count;
    table_.prefetch(p.likely_key_after(m));
    const bool noisy = is_noisy(p, m);
    const int history = noisy ? 0 : picker.history_of_last(m);
    const bool check = checks.given_by(m);
    const int reduction = reduction_of(n, m, move_count, history, noisy);
    if (may_prune && best > -min_mate_score &&
        is_prunable(n, picker, m, move_count, reduction, noisy, check)) {
      continue;
    }
    Score cut_score = no_score;
    int extension = extension_of(n, m, cut_score);
    if (stopped_) return draw_score;
    if (cut_score != no_score) return cut_score;
    const Position next = p.after(m);
    make(p, m, next, n.ply, check);
    if (extension == 0 && check && n.depth <= 6 && !picker.in_bad_noisy() &&
        uses(Technique::check_extensions))
      extension = 1;
    const Score s = search_child(n, next, move_count, n.depth - 1 + extension, reduction);
    unmake();
    if (stopped_) return draw_score;
    if (s > best) {
      best = s;
      if (s > n.alpha) {
        best_move = m;
        n.alpha = s;
        if (n.pv) update_pv(n.ply, m);
        if (s >= n.beta) break;
      }
    }
    noisy ? captures.add(m) : quiets.add(m);
  }
  if (move_count == 0) {
    if (excluded) return n.alpha;
    return n.in_check ? mated_in_plies(n.ply) : draw_score;
  }
  best = within_knowledge(n, best);
  if (best >= n.beta) learn_from_cut(n, best_move, quiets.all(), captures.all());
  if (!excluded) keep_result(n, best, best_move);
  return best;
}

// A win that is known for certain is no draw, though on this path every move seems to repeat the
// position. A singular test has no evaluation; in a pawn ending it never comes out below a win, so
// that a move which draws or loses there is not searched deeper.
Score Worker::within_knowledge(const Node& n, Score best) {
  const bool test = n.raw.score == no_score && !n.in_check;
  if (test && rules::count(n.position.occupied()) == 3 && n.position.pieces(rules::pawn) != 0) {
    return std::max(best, least_exact_win);
  }
  if (n.raw.certainty != Certainty::exact) return best;
  if (n.raw.score > draw_score) return std::max(best, least_exact_win);
  if (n.raw.score < draw_score) return std::min(best, -least_exact_win);
  return best;
}

void Worker::keep_result(const Node& n, Score best, Move best_move) {
  const Bound bound = best >= n.beta      ? Bound::lower
                      : n.pv && best_move ? Bound::exact
                                          : Bound::upper;
  table_.store(n.position.key(), best_move, to_table(best, n.ply), n.raw.score, n.depth, bound,
               n.pv);
  learn_from_result(n, best, best_move);
}

}  // namespace kairos::search
