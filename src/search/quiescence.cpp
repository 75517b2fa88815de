#include <algorithm>

#include "kairos/search/settled.hpp"

#include "exchange.hpp"
#include "worker.hpp"

namespace kairos::search {

using rules::Move;
using rules::Position;

namespace {
// A capture must bring the score within this much of alpha, its victim counted in full.
constexpr Score futility_margin = 150;
constexpr int check_depth = 0;  // quiet checks are tried at the first quiescence ply only
}  // namespace

// Searches captures, promotions and (at depth 0) checks until the position is quiet; all evasions
// when in check. `depth` is 0 or below.
Score Worker::quiesce(const Position& position, int ply, int depth, Score alpha, Score beta) {
  frame(ply).pv_length = 0;
  if (!enter(position, ply)) return draw_score;
  if (is_draw(position, ply)) return draw_score;
  const bool pv = beta - alpha > 1;
  const bool in_check = position.in_check();
  if (ply >= max_ply - 1) return in_check ? draw_score : evaluate(position, pawn_table_);

  const Found found = table_.probe(position.key());
  const Score table_score = from_table(found.score, ply);
  const int table_depth = in_check || depth >= check_depth ? 0 : -1;
  if (!pv && found.depth >= table_depth && table_score != no_score &&
      (found.bound == Bound::exact || (found.bound == Bound::lower && table_score >= beta) ||
       (found.bound == Bound::upper && table_score <= alpha))) {
    return table_score;
  }

  Score evaluation = no_score;
  Score best = -infinite_score;
  Score floor = -infinite_score;
  const Score first_alpha = alpha;
  if (!in_check) {
    evaluation = found.evaluation != no_score ? found.evaluation : evaluate(position, pawn_table_);
    best = evaluation;
    const bool better = table_score != no_score &&
                        (found.bound == Bound::exact ||
                         found.bound == (table_score > best ? Bound::lower : Bound::upper));
    if (better) best = table_score;
    if (best >= beta) {
      if (!found.hit) {
        table_.store(position.key(), {}, to_table(best, ply), evaluation, -1, Bound::lower, false);
      }
      return best;
    }
    alpha = std::max(alpha, best);
    floor = best + futility_margin;
  }

  Move table_move = found.move;
  if (table_move &&
      (!rules::is_legal(position, table_move) ||
       (!in_check && !position.is_capture(table_move) && !table_move.is_promotion()))) {
    table_move = {};
  }
  const auto mode = depth >= check_depth ? Picker::Mode::with_checks : Picker::Mode::noisy;
  const Trail trail = trail_at(ply);
  Picker picker(position, histories_, trail, table_move, mode, in_check);
  Move best_move;
  int count = 0;
  while (const Move m = picker.next()) {
    ++count;
    const bool noisy = position.is_capture(m) || m.is_promotion();
    if (best > -min_mate_score) {
      if (!in_check && noisy && !m.is_promotion() && floor > -min_mate_score) {
        const Score reach =
            floor + (m.is_en_passant() ? nominal_value(rules::pawn)
                                       : nominal_value(rules::type_of(position.piece_on(m.to()))));
        if (reach <= alpha && !position.gives_check(m)) {
          best = std::max(best, reach);
          continue;
        }
      }
      if (!noisy && (in_check ? count > 3 : !exchange_at_least(position, m, 0))) continue;
    }
    const Position next = make(position, m, ply);
    const Score score = -quiesce(next, ply + 1, depth - 1, -beta, -alpha);
    unmake();
    if (stopped_) return draw_score;
    if (score <= best) continue;
    best = score;
    if (score <= alpha) continue;
    best_move = m;
    alpha = score;
    if (pv) update_pv(ply, m);
    if (score >= beta) break;
  }
  if (in_check && count == 0) return mated_in_plies(ply);
  const Bound bound = best >= beta                            ? Bound::lower
                      : pv && best > first_alpha && best_move ? Bound::exact
                                                              : Bound::upper;
  table_.store(position.key(), best_move, to_table(best, ply), evaluation, table_depth, bound,
               found.was_pv);
  return best;
}

}  // namespace kairos::search
