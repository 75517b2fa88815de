#include "kairos/search/mate.hpp"

#include <algorithm>
#include <array>

#include "kairos/rules/movegen.hpp"

// Is there a mate in 1? in 2? in 3? Each question is answered exhaustively before the next is
// asked, so the first yes is the shortest mate. "The attacker mates in n" holds when one of his
// moves leaves no reply after which he does not mate in n - 1; only checks are looked at for the
// last move. Most of the work is to find the one reply that refutes an idle move, so the reply that
// refuted a sister move is tried first, and a table keeps for each position the greatest n refuted
// and the smallest n proven. Repetition and move counts play no part, as in problems.

namespace kairos::search {

using rules::Move;
using rules::Position;

namespace {

constexpr std::size_t table_entries = std::size_t{1} << 17;

struct Entry {
  rules::Key key = 0;
  std::uint8_t refuted = 0;   // no mate in this many moves or fewer
  std::uint8_t proven = 255;  // a mate in this many moves
  Move move;                  // the mating move
};

class Prover {
 public:
  explicit Prover(std::uint64_t node_limit) : node_limit_(node_limit), table_(table_entries) {}

  // Whether the side to move mates in at most n moves.
  bool mates(const Position& p, int n) {
    const Entry& known = table_[slot(p)];
    if (known.key == p.key()) {
      if (known.proven <= n) return true;
      if (known.refuted >= n) return false;
    }
    if (!enter()) return false;
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    const std::size_t checks = checks_first(p, moves);
    const std::size_t end = n == 1 ? checks : moves.size();
    Move mating;
    for (std::size_t i = 0; i < end && !mating && !out_of_nodes_; ++i) {
      if (is_lost(p.after(moves[i]), n, i < checks)) mating = moves[i];
    }
    if (out_of_nodes_) return false;
    remember(p, n, mating);
    return static_cast<bool>(mating);
  }

  // The mating move of a position known to be mated in n, and the defence that lasts longest.
  std::vector<Move> line(Position p, int n) {
    std::vector<Move> result;
    while (n > 0 && mates(p, n) && !out_of_nodes_) {
      const Move m = table_[slot(p)].move;
      result.push_back(m);
      p.play(m);
      const Move reply = longest_defence(p, n - 1);
      if (!reply) break;
      result.push_back(reply);
      p.play(reply);
      --n;
    }
    return result;
  }

  void lift_limit() { node_limit_ = UINT64_MAX; }
  [[nodiscard]] std::uint64_t nodes() const { return nodes_; }
  [[nodiscard]] bool out_of_nodes() const { return out_of_nodes_; }

 private:
  static std::size_t slot(const Position& p) {
    return static_cast<std::size_t>(p.key()) & (table_entries - 1);
  }

  bool enter() {
    if (nodes_ >= node_limit_) out_of_nodes_ = true;
    if (!out_of_nodes_) ++nodes_;
    return !out_of_nodes_;
  }

  // Whether the defender, to move, is mated now or whatever he replies within n - 1 more moves.
  bool is_lost(const Position& p, int n, bool in_check) {
    if (!enter()) return false;
    if (n == 1) return in_check && !rules::has_legal_move(p);
    rules::MoveList replies;
    rules::legal_moves(p, replies);
    if (replies.empty()) return in_check;
    Move& refutation = refutations_[static_cast<std::size_t>(n)];
    const auto last = std::find(replies.begin(), replies.end(), refutation);
    if (last != replies.end()) std::rotate(replies.begin(), last, last + 1);
    for (const Move reply : replies) {
      if (!mates(p.after(reply), n - 1)) {
        refutation = reply;
        return false;
      }
    }
    return true;
  }

  // A reply after which the mate takes all of n more moves; no move when mated.
  Move longest_defence(const Position& p, int n) {
    rules::MoveList replies;
    rules::legal_moves(p, replies);
    for (const Move reply : replies) {
      if (n <= 1 || !mates(p.after(reply), n - 1)) return reply;
    }
    return {};
  }

  // Puts checks to the front, keeping the order otherwise; returns how many there are.
  static std::size_t checks_first(const Position& p, rules::MoveList& moves) {
    rules::MoveList others;
    std::size_t checks = 0;
    for (const Move m : moves) {
      if (p.gives_check(m)) {
        moves[checks++] = m;
      } else {
        others.push(m);
      }
    }
    std::copy(others.begin(), others.end(), moves.begin() + checks);
    return checks;
  }

  void remember(const Position& p, int n, Move mating) {
    Entry& e = table_[slot(p)];
    if (e.key != p.key()) e = {p.key(), 0, 255, {}};
    if (mating) {
      if (n < e.proven) {
        e.proven = static_cast<std::uint8_t>(n);
        e.move = mating;
      }
    } else {
      e.refuted = std::max(e.refuted, static_cast<std::uint8_t>(n));
    }
  }

  std::uint64_t node_limit_;
  std::uint64_t nodes_ = 0;
  bool out_of_nodes_ = false;
  std::vector<Entry> table_;
  std::array<Move, 256> refutations_{};
};

}  // namespace

std::optional<MateProof> prove_mate(const Position& position, int max_moves, std::uint64_t nodes) {
  Prover prover(nodes);
  for (int n = 1; n <= std::min(max_moves, 250); ++n) {
    const bool found = prover.mates(position, n);
    if (prover.out_of_nodes()) return std::nullopt;
    if (!found) continue;
    MateProof proof;
    proof.moves = n;
    prover.lift_limit();
    proof.line = prover.line(position, n);
    proof.nodes = prover.nodes();
    return proof;
  }
  return std::nullopt;
}

}  // namespace kairos::search
