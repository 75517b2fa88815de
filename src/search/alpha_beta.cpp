#include <algorithm>
#include <bit>

#include "kairos/rules/draws.hpp"
#include "kairos/search/settled.hpp"

#include "endings.hpp"
#include "exchange.hpp"
#include "worker.hpp"

// Principal variation search: the first move of a node is searched with the full window, the others
// only to show that they are no better, with less depth the later they come; what surprises is
// searched again. Before the moves, a node may be cut because the static score is far above beta
// (or stays above after passing the turn), or far below alpha. What each rule gained when measured
// stands in DEVELOPERS.md.

namespace kairos::search {

using rules::Bitboard;
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
constexpr int reduction_slope = 58;  // in 256ths per product of logarithms
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

bool has_pieces(const Position& p, rules::Color c) {
  return p.pieces(c) != (p.pieces(c, rules::pawn) | p.pieces(c, rules::king));
}

int learning_bonus(int depth) {
  return std::min(180 * depth - 60, 1800);
}

}  // namespace

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

// A repetition inside the search counts at once, one of the game only the second time.
bool Worker::is_draw(const Position& p, int ply) const {
  if (p.halfmove_clock() >= 100 && (!p.in_check() || rules::has_legal_move(p))) return true;
  const Bitboard heavy = p.pieces(rules::pawn) | p.pieces(rules::rook) | p.pieces(rules::queen);
  if (heavy == 0 && rules::is_bare_material(p)) return true;
  const auto back = static_cast<std::size_t>(frame(ply).reversible);
  const std::size_t last = path_.size() - 1;
  bool seen = false;
  for (std::size_t i = 4; i <= back && i <= last; i += 2) {
    if (path_[last - i] != p.key()) continue;
    if (last - i >= root_index_ || seen) return true;
    seen = true;
  }
  return false;
}

// A static score of exactly 0 is mostly a known draw and stays, and so does that of a few men: what
// is known of such endings is better than what is learnt on the way.
Score Worker::corrected(const Position& position, Score raw) const {
  constexpr int few_men = 5;
  if (raw == draw_score || rules::count(position.occupied()) <= few_men) return raw;
  return std::clamp(raw + histories_.correction(position), -max_evaluation, max_evaluation);
}

Position Worker::make(const Position& position, Move m, int ply) {
  Frame& f = frame(ply);
  f.current = m;
  if (m == rules::null_move) {
    f.row = &histories_.after_nothing();
  } else {
    f.row = &histories_.after(position.piece_on(m.from()), m.to());
  }
  Position next = position.after(m);
  table_.prefetch(next.key());
  path_.push_back(next.key());
  frame(ply + 1).reversible =
      m == rules::null_move || next.halfmove_clock() == 0 ? 0 : f.reversible + 1;
  return next;
}

void Worker::update_pv(int ply, Move m) {
  Frame& f = frame(ply);
  const Frame& child = frame(ply + 1);
  f.pv[0] = m;
  std::copy_n(child.pv.begin(), child.pv_length, f.pv.begin() + 1);
  f.pv_length = child.pv_length + 1;
}

Trail Worker::trail_at(int ply) const {
  return {frame(ply - 1).row, frame(ply - 2).row, frame(ply - 4).row, frame(ply).killers};
}

Score Worker::search(const Position& position, int ply, int depth, Score alpha, Score beta,
                     bool cut) {
  if (depth <= 0) return quiesce(position, ply, 0, alpha, beta);
  frame(ply).pv_length = 0;
  if (!enter()) return draw_score;
  Node n{position, ply, std::min(depth, max_ply - 1), alpha, beta, beta - alpha > 1, cut};
  if (const Score s = early_result(n); s != no_score) return s;
  evaluate_node(n);
  if (const Score s = prune_node(n); s != no_score) return s;
  if (n.depth >= 4 && !n.found.move && (n.pv || n.cut) && !frame(ply).excluded) --n.depth;
  return search_moves(n);
}

// Draws, the shortest mate still possible, and the table; also fills in `found`.
Score Worker::early_result(Node& n) {
  n.in_check = n.position.in_check();
  if (is_draw(n.position, n.ply)) return draw_score;
  if (n.ply >= max_ply - 1) {
    return n.in_check ? draw_score : search::evaluate(n.position, pawn_table_);
  }
  n.alpha = std::max(n.alpha, mated_in_plies(n.ply));
  n.beta = std::min(n.beta, mate_in_plies(n.ply + 1));
  if (n.alpha >= n.beta) return n.alpha;

  if (frame(n.ply).excluded) return no_score;
  n.found = table_.probe(n.position.key());
  if (n.found.move && !rules::is_legal(n.position, n.found.move)) {
    n.found = {};  // another position's entry
  }
  const Score s = from_table(n.found.score, n.ply);
  n.found.score = s;
  // Near the 50-move limit a score from another path cannot be trusted.
  if (n.pv || s == no_score || n.found.depth < n.depth || n.position.halfmove_clock() >= 90) {
    return no_score;
  }
  if (n.found.bound == Bound::lower ? s < n.beta : n.found.bound == Bound::upper && s > n.alpha) {
    return no_score;
  }
  const Move m = n.found.move;
  if (s >= n.beta && m && !n.position.is_capture(m) && !m.is_promotion()) {
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
    n.raw = n.found.evaluation != no_score ? n.found.evaluation
                                           : search::evaluate(n.position, pawn_table_);
    n.evaluation = corrected(n.position, n.raw);
    f.evaluation = n.evaluation;
    n.estimate = n.evaluation;
    if (!n.found.hit) {
      table_.store(n.position.key(), {}, 0, n.raw, -1, Bound::none, false);
    }
    const Score s = n.found.score;
    if (s != no_score && !is_mate(s) &&
        (n.found.bound == Bound::exact ||
         n.found.bound == (s > n.estimate ? Bound::lower : Bound::upper))) {
      n.estimate = s;
    }
  }
  const Score two_back = frame(n.ply - 2).evaluation;
  const Score four_back = frame(n.ply - 4).evaluation;
  const Score before = two_back != no_score ? two_back : four_back;
  n.improving = before == no_score || n.evaluation > before;
}

// Cuts that need no move of this side.
Score Worker::prune_node(Node& n) {
  if (n.pv || n.in_check || frame(n.ply).excluded) return no_score;
  constexpr int razor_margin = 240;
  if (n.depth <= 3 && n.estimate + razor_margin * n.depth < n.alpha) {
    const Score s = quiesce(n.position, n.ply, 0, n.alpha, n.alpha + 1);
    if (stopped_ || s <= n.alpha) return s;
  }
  constexpr int futility_margin = 80;
  if (n.depth <= 8 && !is_mate(n.beta) && n.estimate < min_mate_score &&
      n.estimate - futility_margin * (n.depth - (n.improving ? 1 : 0)) >= n.beta) {
    return n.estimate;
  }
  if (const Score s = try_null_move(n); s != no_score) return s;
  return try_probable_cut(n);
}

// If passing the turn still fails high, some move will too; not so in zugzwang, hence pieces are
// asked for, and deep cuts are verified by a search without null moves.
Score Worker::try_null_move(Node& n) {
  if (n.depth < 3 || n.estimate < n.beta || n.evaluation < n.beta - 20 * n.depth + 160 ||
      frame(n.ply - 1).current == rules::null_move || n.ply < null_barrier_ ||
      n.beta <= -min_mate_score || !has_pieces(n.position, n.position.side_to_move())) {
    return no_score;
  }
  const int reduction = 3 + n.depth / 3 + std::min((n.estimate - n.beta) / 200, 3);
  const Position next = make(n.position, rules::null_move, n.ply);
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
Score Worker::try_probable_cut(Node& n) {
  constexpr int margin = 180;
  const Score raised = n.beta + margin - (n.improving ? 40 : 0);
  if (n.depth < 5 || is_mate(n.beta)) return no_score;
  if (n.found.score != no_score && n.found.depth >= n.depth - 3 && n.found.score < raised) {
    return no_score;
  }
  Move table_move = n.found.move;
  if (table_move && !n.position.is_capture(table_move)) table_move = {};
  const Trail trail = trail_at(n.ply);
  Picker picker(n.position, histories_, trail, table_move, Picker::Mode::noisy, false);
  while (const Move m = picker.next()) {
    if (!exchange_at_least(n.position, m, raised - n.evaluation)) continue;
    const Position next = make(n.position, m, n.ply);
    Score s = -quiesce(next, n.ply + 1, 0, -raised, -raised + 1);
    if (s >= raised) {
      s = -search(next, n.ply + 1, n.depth - 4, -raised, -raised + 1, !n.cut);
    }
    unmake();
    if (stopped_) return draw_score;
    if (s >= raised) {
      table_.store(n.position.key(), m, to_table(s, n.ply), n.raw, n.depth - 3, Bound::lower,
                   false);
      return is_mate(s) ? s : s - (raised - n.beta);
    }
  }
  return no_score;
}

// Whether a late or losing move may be left out unseen.
bool Worker::is_prunable(const Node& n, const Picker& picker, Move m, int move_count, int reduction,
                         bool noisy) {
  const int depth = std::max(0, n.depth - 1 - reduction / 256);
  if (noisy) {
    return n.depth <= 7 && !exchange_at_least(n.position, m, -100 * n.depth);
  }
  if (n.in_check) return false;
  if (n.position.gives_check(m)) {
    return n.depth <= 6 && !exchange_at_least(n.position, m, -50 * n.depth);
  }
  if (move_count > (4 + n.depth * n.depth) / (n.improving ? 1 : 2) && n.depth <= 8) return true;
  if (depth <= 7 && n.evaluation + 120 + 90 * depth <= n.alpha) return true;
  if (depth <= 4 && picker.history_of_last(m) < -4000 * (depth + 1)) return true;
  return depth <= 8 && !exchange_at_least(n.position, m, -24 * depth * depth);
}

// A table move that alone holds the score up is searched deeper. When even the others beat beta,
// the node is cut: `cut_score` then says so.
int Worker::extension_of(Node& n, Move m, Score& cut_score) {
  Frame& f = frame(n.ply);
  const bool test = m == n.found.move && !f.excluded && n.depth >= 7 &&
                    n.found.depth >= n.depth - 3 && n.found.bound != Bound::upper &&
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
  if (n.cut) r += 256;
  if (!n.improving) r += 128;
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
    const bool late = n.depth >= 2 && move_count > 1 + (n.pv ? 1 : 0);
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

namespace {
// The moves of a node that were tried and did not cut, for the histories.
struct Tried {
  std::array<Move, 64> moves;
  std::size_t count = 0;
  void add(Move m) {
    if (count < moves.size()) moves[count++] = m;
  }
  [[nodiscard]] std::span<const Move> all() const { return {moves.data(), count}; }
};
}  // namespace

Score Worker::search_moves(Node& n) {
  const Position& p = n.position;
  Frame& f = frame(n.ply);
  const Trail trail = trail_at(n.ply);
  const Move excluded = f.excluded;
  Picker picker(p, histories_, trail, n.found.move, Picker::Mode::full, n.in_check);
  Tried quiets, captures;
  Move best_move;
  Score best = -infinite_score;
  int move_count = 0;
  bool skip_quiets = false;
  while (const Move m = picker.next(skip_quiets)) {
    if (m == excluded) continue;
    ++move_count;
    const bool noisy = p.is_capture(m) || m.is_promotion();
    const int history = noisy ? 0 : picker.history_of_last(m);
    int reduction = reduction_of(n, m, move_count, history, noisy);
    if (best > -min_mate_score && has_pieces(p, p.side_to_move()) &&
        is_prunable(n, picker, m, move_count, reduction, noisy)) {
      continue;
    }
    Score cut_score = no_score;
    int extension = extension_of(n, m, cut_score);
    if (stopped_) return draw_score;
    if (cut_score != no_score) return cut_score;
    const Position next = make(p, m, n.ply);
    if (extension == 0 && next.in_check() && n.depth <= 6 && !picker.in_bad_noisy()) extension = 1;
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
  if (!excluded) {
    const Bound bound = best >= n.beta      ? Bound::lower
                        : n.pv && best_move ? Bound::exact
                                            : Bound::upper;
    table_.store(p.key(), best_move, to_table(best, n.ply), n.raw, n.depth, bound, n.pv);
    learn_from_result(n, best, best_move);
  }
  return best;
}

// A pawn ending that the table knows as won is no draw, though on this path every move seems to
// repeat the position.
Score Worker::within_knowledge(const Node& n, Score best) {
  const bool exact =
      rules::count(n.position.occupied()) == 3 && n.position.pieces(rules::pawn) != 0;
  if (n.in_check || !exact) return best;
  if (n.raw >= least_known_win) return std::max(best, least_known_win);
  if (n.raw <= -least_known_win) return std::min(best, -least_known_win);
  return best;
}

// Remembers by how much the static score was off, where the result tells: not when it is only a
// bound on the side that agrees, and not when a capture explains the difference.
void Worker::learn_from_result(const Node& n, Score best, Move best_move) {
  if (n.in_check || is_mate(best) || n.raw == draw_score) return;
  if (best_move && (n.position.is_capture(best_move) || best_move.is_promotion())) return;
  if (best >= n.beta && best <= n.evaluation) return;
  if (!best_move && best >= n.evaluation) return;
  histories_.learn_correction(n.position, n.depth, best - n.evaluation);
}

void Worker::learn_quiet(const Position& p, int ply, Move m, int bonus) {
  const std::size_t cell = Histories::cell(p.piece_on(m.from()), m.to());
  histories_.learn_quiet(p.side_to_move(), m, bonus);
  for (const int back : {1, 2, 4}) {
    Histories::Row* row = frame(ply - back).row;
    if (row != &histories_.after_nothing()) Histories::learn((*row)[cell], bonus);
  }
}

void Worker::learn_from_cut(const Node& n, Move best, std::span<const Move> quiets,
                            std::span<const Move> captures) {
  const Position& p = n.position;
  const int bonus = learning_bonus(n.depth);
  const auto learn_capture = [&](Move m, int value) {
    const auto victim = m.is_en_passant() ? rules::pawn : rules::type_of(p.piece_on(m.to()));
    histories_.learn_capture(p.piece_on(m.from()), m.to(), victim, value);
  };
  if (p.is_capture(best) || best.is_promotion()) {
    learn_capture(best, bonus);
  } else {
    Frame& f = frame(n.ply);
    if (f.killers[0] != best) f.killers = {best, f.killers[0]};
    learn_quiet(p, n.ply, best, bonus);
    for (const Move m : quiets) learn_quiet(p, n.ply, m, -bonus);
  }
  for (const Move m : captures) learn_capture(m, -bonus);
}

}  // namespace kairos::search
