#include "perpetual.hpp"

#include <algorithm>
#include <vector>

#include "kairos/rules/movegen.hpp"

namespace kairos::study {

using rules::Move;
using rules::Position;

namespace {

constexpr std::uint64_t perpetual_nodes = 20'000;
constexpr int perpetual_plies = 24;

// Checks without end: every check of the checker is tried, against all replies.
class Perpetual {
 public:
  // `p` is with the checker to move.
  bool holds(const Position& p, int plies) {
    if (++nodes_ > perpetual_nodes || plies <= 0) return false;
    path_.push_back(p.key());
    bool found = false;
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    for (const Move m : moves) {
      if (!p.gives_check(m)) continue;
      found = every_reply_holds(p.after(m), plies - 1);
      if (found || nodes_ > perpetual_nodes) break;
    }
    path_.pop_back();
    return found;
  }

  [[nodiscard]] std::uint64_t nodes() const { return nodes_; }

 private:
  bool every_reply_holds(const Position& p, int plies) {
    rules::MoveList replies;
    rules::legal_moves(p, replies);
    return std::ranges::all_of(replies, [&](Move reply) {
      const Position next = p.after(reply);
      const bool again = std::ranges::find(path_, next.key()) != path_.end();
      return again || holds(next, plies - 1);
    });
  }

  std::vector<rules::Key> path_;
  std::uint64_t nodes_ = 0;
};

}  // namespace

bool is_perpetual_from(const Position& p, std::uint64_t& nodes) {
  for (const int plies : {8, 14, perpetual_plies}) {
    Perpetual perpetual;
    const bool holds = perpetual.holds(p, plies);
    nodes += perpetual.nodes();
    if (holds) return true;
    if (perpetual.nodes() > perpetual_nodes) return false;
  }
  return false;
}

}  // namespace kairos::study
