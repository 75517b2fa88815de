#include <algorithm>

#include "exchange.hpp"
#include "worker.hpp"

// What may end a node before its own moves are searched: draws, the table, a static score far
// outside the window, a pass that still fails high, a capture that wins enough in a shallow search.

namespace kairos::search {

using rules::Move;
using rules::Position;

// Draws, the shortest mate still possible, and the table; also fills in `found`.
Score Worker::early_result(Node& n) {
  n.in_check = frame(n.ply).in_check;
  if (const Score s = score_of_draw(n.position, n.ply); s != no_score) return s;
  if (n.ply >= max_ply - 1) {
    return n.in_check ? draw_score : evaluator_.evaluate().score;
  }
  n.alpha = std::max(n.alpha, mated_in_plies(n.ply));
  n.beta = std::min(n.beta, mate_in_plies(n.ply + 1));
  if (n.alpha >= n.beta) return n.alpha;

  if (frame(n.ply).excluded) return no_score;
  n.found = probe(n.position);
  if (n.found.move && !rules::is_legal(n.position, n.found.move)) {
    n.found = {};  // another position's entry
  }
  if (n.found.move) table_.prefetch(n.position.likely_key_after(n.found.move));
  const Score s = from_table(n.found.score, n.ply);
  n.found.score = s;
  // Near the 50-move limit a score from another path cannot be trusted.
  if (n.pv || s == no_score || n.found.depth < n.depth || n.position.halfmove_clock() >= 90) {
    return no_score;
  }
  if (!decides(n.found.bound, s, n.alpha, n.beta)) return no_score;
  const Move m = n.found.move;
  if (s >= n.beta && m && !is_noisy(n.position, m)) {
    learn_quiet(n.position, n.ply, m, learning_bonus(n.depth) / 2);
  }
  return s;
}

void Worker::evaluate_node(Node& n) {
  Frame& f = frame(n.ply);
  frame(n.ply + 2).killers = {};
  if (n.in_check) {
    f.evaluation = no_score;
    return;
  }
  if (f.excluded) {
    n.evaluation = n.estimate = f.evaluation;  // evaluated by the same node's first visit
  } else {
    n.raw = evaluation_of(n.found);
    n.evaluation = corrections_.corrected(n.position, n.raw);
    f.evaluation = n.evaluation;
    n.estimate = n.evaluation;
    if (!n.found.hit) {
      table_.store(n.position.key(), {}, 0, n.raw.score, -1, Bound::none, false);
    }
    const Score s = n.found.score;
    if (s != no_score && !is_mate(s) && decides(n.found.bound, s, n.estimate, n.estimate + 1)) {
      n.estimate = s;
    }
  }
  const Score two_back = frame(n.ply - 2).evaluation;
  const Score four_back = frame(n.ply - 4).evaluation;
  const Score before = two_back != no_score ? two_back : four_back;
  n.improving = before == no_score || n.evaluation > before;
  if (!f.excluded) learn_from_change(n);
}

// Cuts that need no move of this side.
Score Worker::prune_node(Node& n) {
  if (n.pv || n.in_check || frame(n.ply).excluded) return no_score;
  constexpr int razor_margin = 240;
  if (n.depth <= 3 && n.estimate + razor_margin * n.depth < n.alpha && uses(Technique::razoring)) {
    const Score s = quiesce(n.position, n.ply, 0, n.alpha, n.alpha + 1);
    if (stopped_ || s <= n.alpha) return s;
  }
  constexpr int futility_margin = 80;
  if (n.depth <= 8 && !is_mate(n.beta) && n.estimate < min_mate_score &&
      n.estimate - futility_margin * (n.depth - (n.improving ? 1 : 0)) >= n.beta &&
      uses(Technique::reverse_futility)) {
    return n.estimate;
  }
  if (const Score s = try_null_move(n); s != no_score) return s;
  return try_probcut(n);
}

// If passing the turn still fails high, some move will too; not so in zugzwang, hence pieces are
// asked for, and deep cuts are verified by a search without null moves.
Score Worker::try_null_move(Node& n) {
  if (n.depth < 3 || n.estimate < n.beta || n.evaluation < n.beta - 20 * n.depth + 160 ||
      frame(n.ply - 1).current == rules::null_move || n.ply < null_barrier_ ||
      n.beta <= -min_mate_score || !has_pieces(n.position, n.position.side_to_move()) ||
      !uses(Technique::null_move)) {
    return no_score;
  }
  const int reduction = 3 + n.depth / 3 + std::min((n.estimate - n.beta) / 200, 3);
  const Position next = n.position.after(rules::null_move);
  make(n.position, rules::null_move, next, n.ply, false);
  Score s = -search(next, n.ply + 1, n.depth - reduction, -n.beta, -n.beta + 1, !n.cut);
  unmake();
  if (stopped_) return draw_score;
  if (s < n.beta) return no_score;
  if (s >= min_mate_score) s = n.beta;  // a mate after a pass is no proof
  if (null_barrier_ != 0 || n.depth < 12) return s;
  null_barrier_ = n.ply + 3 * (n.depth - reduction) / 4;
  const Score verified = search(n.position, n.ply, n.depth - reduction, n.beta - 1, n.beta, false);
  null_barrier_ = 0;
  if (stopped_) return draw_score;
  return verified >= n.beta ? s : no_score;
}

// A capture that beats beta by a margin in a shallower search will very likely beat it at depth.
Score Worker::try_probcut(Node& n) {
  constexpr int margin = 180;
  const Score raised = n.beta + margin - (n.improving ? 40 : 0);
  if (n.depth < 5 || is_mate(n.beta) || !uses(Technique::probcut)) return no_score;
  if (n.found.score != no_score && n.found.depth >= n.depth - 3 && n.found.score < raised) {
    return no_score;
  }
  Move table_move = n.found.move;
  if (table_move && !n.position.is_capture(table_move)) table_move = {};
  const OrderingHints hints = hints_at(n.ply);
  const rules::Checks checks(n.position);
  MovePicker picker(n.position, histories_, hints, table_move, MovePicker::Mode::noisy, false,
                    checks);
  while (const Move m = picker.next()) {
    if (!exchange_at_least(n.position, m, raised - n.evaluation)) continue;
    const Position next = n.position.after(m);
    make(n.position, m, next, n.ply, checks.given_by(m));
    Score s = -quiesce(next, n.ply + 1, 0, -raised, -raised + 1);
    if (s >= raised) {
      s = -search(next, n.ply + 1, n.depth - 4, -raised, -raised + 1, !n.cut);
    }
    unmake();
    if (stopped_) return draw_score;
    if (s >= raised) {
      table_.store(n.position.key(), m, to_table(s, n.ply), n.raw.score, n.depth - 3, Bound::lower,
                   false);
      return is_mate(s) ? s : s - (raised - n.beta);
    }
  }
  return no_score;
}

}  // namespace kairos::search
