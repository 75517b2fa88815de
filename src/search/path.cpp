#include <algorithm>

#include "kairos/rules/draws.hpp"

#include "worker.hpp"

// The way from the root to the node under search: counting nodes, playing moves, draws by
// repetition, and the principal variation on its way back up.

namespace kairos::search {

using rules::Bitboard;
using rules::Move;
using rules::Position;

bool Worker::enter() {
  if (stopped_) return false;
  if (nodes_ >= node_limit_) {
    stopped_ = true;
    return false;
  }
  ++nodes_;
  if (stop_ != nullptr && (nodes_ & 1023) == 0 && stop_->load(std::memory_order_relaxed)) {
    stopped_ = true;
    return false;
  }
  return true;
}

// A repetition inside the search counts at once, one of the game only the second time. Among
// further lines, coming back to the root is no draw: from there the best line can still be played.
Score Worker::score_of_draw(const Position& p, int ply) const {
  if (p.halfmove_clock() >= 100 && (!p.in_check() || rules::has_legal_move(p))) return draw_score;
  const Bitboard heavy = p.pieces(rules::pawn) | p.pieces(rules::rook) | p.pieces(rules::queen);
  if (heavy == 0 && rules::is_bare_material(p)) return draw_score;
  const auto back = static_cast<std::size_t>(frame(ply).reversible);
  const std::size_t last = root_index_ + index(ply);
  bool seen = false;
  for (std::size_t i = 4; i <= back && i <= last; i += 2) {
    if (path_[last - i] != p.key()) continue;
    if (seen || last - i > root_index_) return draw_score;
    if (last - i == root_index_) return back_at_root_;
    seen = true;
  }
  return no_score;
}

void Worker::make(const Position& position, Move m, const Position& next, int ply, bool check) {
  Frame& f = frame(ply);
  f.current = m;
  f.quiet = m != rules::null_move && !is_noisy(position, m);
  if (m == rules::null_move) {
    f.row = &histories_.after_nothing();
  } else {
    f.row = &histories_.after(position.piece_on(m.from()), m.to());
  }
  table_.prefetch(next.key());
  path_[root_index_ + index(ply) + 1] = next.key();
  evaluator_.push(next);
  Frame& child = frame(ply + 1);
  child.in_check = check;
  child.reversible = m == rules::null_move || next.halfmove_clock() == 0 ? 0 : f.reversible + 1;
}

void Worker::update_pv(int ply, Move m) {
  Frame& f = frame(ply);
  const Frame& child = frame(ply + 1);
  f.pv[0] = m;
  std::copy_n(child.pv.begin(), child.pv_length, f.pv.begin() + 1);
  f.pv_length = child.pv_length + 1;
}

OrderingHints Worker::hints_at(int ply) const {
  return {frame(ply - 1).row, frame(ply - 2).row, frame(ply - 4).row, frame(ply).killers};
}

}  // namespace kairos::search
