#include <algorithm>

#include "exchange.hpp"
#include "worker.hpp"

namespace kairos::search {

using rules::Move;
using rules::Position;

namespace {

// A capture must bring the score within this much of alpha, its victim counted in full.
constexpr Score futility_margin = 150;
constexpr int check_depth = 0;          // quiet checks are tried at the first quiescence ply only
constexpr int evasions_tried_late = 3;  // when in check and not being mated

}  // namespace

// The static score, or what the table knows better; `raw` receives the uncorrected one.
Score Worker::stand_pat(const Position& position, const Found& found, Score table_score,
                        Evaluation& raw) {
  raw = evaluation_of(found);
  const Score score = corrections_.corrected(position, raw);
  const bool better =
      table_score != no_score && decides(found.bound, table_score, score, score + 1);
  return better ? table_score : score;
}

// Searches captures, promotions and (at depth 0) checks until the position is quiet; all evasions
// when in check. `depth` is 0 or below.
Score Worker::quiesce(const Position& position, int ply, int depth, Score alpha, Score beta) {
  frame(ply).pv_length = 0;
  if (!enter()) return draw_score;
  if (const Score s = score_of_draw(position, ply); s != no_score) return s;
  const bool pv = beta - alpha > 1;
  const bool in_check = frame(ply).in_check;
  if (ply >= max_ply - 1) return in_check ? draw_score : evaluator_.evaluate().score;

  const Found found = probe(position);
  const Score table_score = from_table(found.score, ply);
  const int table_depth = in_check || depth >= check_depth ? 0 : -1;
  if (!pv && found.depth >= table_depth && table_score != no_score &&
      decides(found.bound, table_score, alpha, beta)) {
    return table_score;
  }
  Evaluation raw{no_score};
  Score best = -infinite_score;
  const Score first_alpha = alpha;
  if (!in_check) {
    best = stand_pat(position, found, table_score, raw);
    if (best >= beta) {
      if (!found.hit) {
        table_.store(position.key(), {}, to_table(best, ply), raw.score, -1, Bound::lower, false);
      }
      return best;
    }
    alpha = std::max(alpha, best);
  }
  const Move best_move = search_noisy(position, ply, depth, alpha, beta, best, found.move);
  if (stopped_) return draw_score;
  const Bound bound = best >= beta                            ? Bound::lower
                      : pv && best > first_alpha && best_move ? Bound::exact
                                                              : Bound::upper;
  table_.store(position.key(), best_move, to_table(best, ply), raw.score, table_depth, bound,
               found.was_pv);
  return best;
}

// The moves of a quiescence node; betters `best` and returns the move that raised alpha, if any.
Move Worker::search_noisy(const Position& position, int ply, int depth, Score alpha, Score beta,
                          Score& best, Move hint) {
  const bool in_check = frame(ply).in_check;
  const bool pv = beta - alpha > 1;
  if (hint && ((!in_check && !is_noisy(position, hint)) || !rules::is_legal(position, hint))) {
    hint = {};
  }
  const Score floor = in_check ? infinite_score : best + futility_margin;
  const bool try_checks = depth >= check_depth && uses(Technique::quiescence_checks);
  const auto mode = try_checks ? MovePicker::Mode::with_checks : MovePicker::Mode::noisy;
  const OrderingHints hints = hints_at(ply);
  const rules::Checks checks(position);
  MovePicker picker(position, histories_, hints, hint, mode, in_check, checks);
  Move best_move;
  int count = 0;
  while (const Move m = picker.next()) {
    ++count;
    const bool check = checks.given_by(m);
    if (best > -min_mate_score) {
      const bool noisy = is_noisy(position, m);
      if (!noisy && (in_check ? count > evasions_tried_late && uses(Technique::few_evasions)
                              : !exchange_at_least(position, m, 0))) {
        continue;
      }
      if (noisy && !in_check && !m.is_promotion() && uses(Technique::delta_pruning)) {
        const Score reach = floor + nominal_values[victim_of(position, m)];
        if (reach <= alpha && !check) {
          best = std::max(best, reach);
          continue;
        }
      }
    }
    table_.prefetch(position.likely_key_after(m));
    const Position next = position.after(m);
    make(position, m, next, ply, check);
    const Score score = -quiesce(next, ply + 1, depth - 1, -beta, -alpha);
    unmake();
    if (stopped_) return {};
    if (score <= best) continue;
    best = score;
    if (score <= alpha) continue;
    best_move = m;
    alpha = score;
    if (pv) update_pv(ply, m);
    if (score >= beta) break;
  }
  if (in_check && count == 0) best = mated_in_plies(ply);
  return best_move;
}

}  // namespace kairos::search
