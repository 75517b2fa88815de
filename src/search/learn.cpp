#include <algorithm>

#include "worker.hpp"

// What a finished node teaches: the moves that cut or did not, and how far off the static score
// was.

namespace kairos::search {

using rules::Move;
using rules::Position;

// Remembers by how much the static score was off, where the result tells: not when it is only a
// bound on the side that agrees, and not when a capture explains the difference.
void Worker::learn_from_result(const Node& n, Score best, Move best_move) {
  if (!uses(Technique::correction_history)) return;
  if (n.in_check || is_mate(best) || n.raw.is_known_draw()) return;
  if (best_move && is_noisy(n.position, best_move)) return;
  if (best >= n.beta && best <= n.evaluation) return;
  if (!best_move && best >= n.evaluation) return;
  corrections_.learn(n.position, n.depth, best - n.evaluation);
}

void Worker::learn_quiet(const Position& p, int ply, Move m, int bonus) {
  const std::size_t cell = Histories::cell(p.piece_on(m.from()), m.to());
  histories_.learn_quiet(p.side_to_move(), m, bonus);
  if (!uses(Technique::continuation_history)) return;
  for (const int back : {1, 2, 4}) {
    Histories::Row* row = frame(ply - back).row;
    if (row != &histories_.after_nothing()) Histories::learn((*row)[cell], bonus);
  }
}

// A quiet move after which the static scores of both sides add up to a loss for the one that made
// it was a bad one, and the other way round.
void Worker::learn_from_change(const Node& n) {
  constexpr int slope = 3, limit = 1200;
  if (n.ply == 0) return;
  const Frame& before = frame(n.ply - 1);
  if (!before.quiet || before.evaluation == no_score) return;
  const int bonus = std::clamp(-slope * (before.evaluation + n.evaluation), -limit, limit);
  histories_.learn_quiet(~n.position.side_to_move(), before.current, bonus);
}

void Worker::learn_from_cut(const Node& n, Move best, std::span<const Move> quiets,
                            std::span<const Move> captures) {
  const Position& p = n.position;
  const int bonus = learning_bonus(n.depth);
  const auto learn_capture = [&](Move m, int value) {
    histories_.learn_capture(p.piece_on(m.from()), m.to(), victim_of(p, m), value);
  };
  if (is_noisy(p, best)) {
    learn_capture(best, bonus);
  } else {
    Frame& f = frame(n.ply);
    if (f.killers[0] != best && uses(Technique::killers)) f.killers = {best, f.killers[0]};
    learn_quiet(p, n.ply, best, bonus);
    for (const Move m : quiets) learn_quiet(p, n.ply, m, -bonus);
  }
  for (const Move m : captures) learn_capture(m, -bonus);
}

}  // namespace kairos::search
