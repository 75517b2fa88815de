// The search under way: one Worker per Searcher, one thread, no globals.
//
// Everything that outlives a single search (table, histories) and everything a search needs on the
// way (path keys, frames, counters) lives here. The functions are spread over alpha_beta.cpp,
// node_cuts.cpp, learn.cpp, path.cpp, quiescence.cpp and root.cpp.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "kairos/rules/checks.hpp"
#include "kairos/search/searcher.hpp"

#include "correction.hpp"
#include "evaluator.hpp"
#include "move_picker.hpp"
#include "table.hpp"
#include "techniques.hpp"

namespace kairos::search {

// What one ply of the current path knows.
struct Frame {
  rules::Move current;   // the move being searched from here
  bool quiet = false;    // whether that is no capture, promotion or pass
  rules::Move excluded;  // left out while a singular move is tested
  std::array<rules::Move, 2> killers{};
  Histories::Row* row = nullptr;  // what follows well upon `current`
  Score evaluation = no_score;
  bool in_check = false;
  int reversible = 0;  // plies back to the last move that cannot be undone
  int pv_length = 0;
  std::array<rules::Move, max_ply + 2> pv{};
};

struct RootMove {
  rules::Move move;
  Score score = -infinite_score;     // of this iteration; -infinite when not the best so far
  Score previous = -infinite_score;  // of the iteration before
  std::uint64_t nodes = 0;
  std::vector<rules::Move> line;
};

// A node while its moves are searched.
struct Node {
  const rules::Position& position;
  int ply;
  int depth;
  Score alpha;
  Score beta;
  bool pv;
  bool cut;  // expected to fail high
  bool in_check = false;
  bool improving = false;
  Found found{};
  Evaluation raw{no_score};     // static, as evaluated
  Score evaluation = no_score;  // the same, corrected by what was learnt
  Score estimate = no_score;    // bettered further by what the table knows
};

// The moves of a node that were tried and did not cut, for the histories.
class TriedMoves {
 public:
  TriedMoves() {}  // not "= default": that would have to fill the moves
  void add(rules::Move m) {
    if (count_ < moves_.size()) moves_[count_++] = m;
  }
  [[nodiscard]] std::span<const rules::Move> all() const { return {moves_.data(), count_}; }

 private:
  union {
    std::array<rules::Move, 64> moves_;
  };
  std::size_t count_ = 0;
};

inline bool has_pieces(const rules::Position& p, rules::Color c) {
  return p.pieces(c) != (p.pieces(c, rules::pawn) | p.pieces(c, rules::king));
}

constexpr int learning_bonus(int depth) {
  return depth < 11 ? 180 * depth - 60 : 1800;
}

class Worker {
 public:
  explicit Worker(std::size_t table_bytes, Techniques techniques = Techniques::all());
  Verdict run(const rules::Position& root, std::span<const rules::Key> earlier,
              const Limits& limits);
  void clear();

 private:
  [[nodiscard]] bool uses(Technique t) const { return techniques_.has(t); }

  // root.cpp
  void prepare(const rules::Position& root, std::span<const rules::Key> earlier,
               const Limits& limits);
  void list_root_moves(const rules::Position& root, const Limits& limits);
  void look_for_forced_mate(const rules::Position& root, const Limits& limits);
  bool iterate(const rules::Position& root, int depth, int lines);
  bool search_line(const rules::Position& root, int depth, std::size_t first);
  Score search_root(const rules::Position& root, int depth, Score alpha, Score beta,
                    std::size_t first);
  void keep_iteration(const rules::Position& root, int depth, int lines);
  void keep_partial(const rules::Position& root);
  void extend_line(const rules::Position& root, Line& line);
  [[nodiscard]] bool is_final(int depth, int lines) const;

  // alpha_beta.cpp
  [[nodiscard]] bool is_late(const Node& n, int move_count) const;
  Score search(const rules::Position& position, int ply, int depth, Score alpha, Score beta,
               bool cut);
  Score search_moves(Node& n);
  bool is_prunable(const Node& n, const MovePicker& picker, rules::Move m, int move_count,
                   int reduction, bool noisy, bool check) const;
  int extension_of(Node& n, rules::Move m, Score& cut_score);
  int reduction_of(const Node& n, rules::Move m, int move_count, int history, bool noisy) const;
  Score search_child(const Node& n, const rules::Position& next, int move_count, int depth,
                     int reduction);
  void keep_result(const Node& n, Score best, rules::Move best_move);

  // node_cuts.cpp
  Score early_result(Node& n);
  void evaluate_node(Node& n);
  Score prune_node(Node& n);
  Score try_null_move(Node& n);
  Score try_probcut(Node& n);

  // learn.cpp
  void learn_quiet(const rules::Position& position, int ply, rules::Move m, int bonus);
  static Score within_knowledge(const Node& n, Score best);
  void learn_from_change(const Node& n);
  void learn_from_result(const Node& n, Score best, rules::Move best_move);
  void learn_from_cut(const Node& n, rules::Move best, std::span<const rules::Move> quiets,
                      std::span<const rules::Move> captures);

  // quiescence.cpp
  Score quiesce(const rules::Position& position, int ply, int depth, Score alpha, Score beta);
  Score stand_pat(const rules::Position& position, const Found& found, Score table_score,
                  Evaluation& raw);
  rules::Move search_noisy(const rules::Position& position, int ply, int depth, Score alpha,
                           Score beta, Score& best, rules::Move hint);

  // path.cpp, shared by all.
  [[nodiscard]] Found probe(const rules::Position& position) const {
    return uses(Technique::transposition_table) ? table_.probe(position.key()) : Found{};
  }
  bool enter();  // counts a node; false when there are none left
  // Of a position that the Laws end as drawn, or that counts so; no_score of any other.
  [[nodiscard]] Score score_of_draw(const rules::Position& position, int ply) const;
  // The move leads from `position` to `next`, which stays in place until it is taken back; notes
  // what the child's frame must know. `check`: the move gives check.
  void make(const rules::Position& position, rules::Move m, const rules::Position& next, int ply,
            bool check);
  void unmake() { evaluator_.pop(); }
  void update_pv(int ply, rules::Move m);
  // Static, of the position at the end of the path; the table may have kept it.
  [[nodiscard]] Evaluation evaluation_of(const Found& found) {
    return found.evaluation != no_score ? evaluator_.evaluated(found.evaluation)
                                        : evaluator_.evaluate();
  }
  [[nodiscard]] OrderingHints hints_at(int ply) const;
  Frame& frame(int ply) { return frames_[index(ply + frame_margin)]; }
  [[nodiscard]] const Frame& frame(int ply) const { return frames_[index(ply + frame_margin)]; }

  static constexpr int frame_margin = 4;  // so that looking back from the root is safe

  Techniques techniques_;
  Table table_;
  Histories histories_;
  CorrectionHistory corrections_;
  Evaluator evaluator_;
  std::vector<Frame> frames_;
  std::vector<rules::Key> path_;  // keys of the game's positions, then by ply of the current path
  std::size_t root_index_ = 0;    // of the root in path_
  std::vector<RootMove> root_moves_;
  Score back_at_root_ = draw_score;  // what coming back to the root position is worth
  Line forced_mate_;  // a mate by checks from the root, when one was found beforehand
  Line fail_high_;    // a root move that beat its window in the iteration under way
  std::uint64_t nodes_ = 0;
  std::uint64_t node_limit_ = 0;
  const std::atomic<bool>* stop_ = nullptr;
  bool stopped_ = false;
  int root_depth_ = 0;
  int null_barrier_ = 0;  // no null move above this ply while one is verified
  Verdict verdict_;
};

}  // namespace kairos::search
