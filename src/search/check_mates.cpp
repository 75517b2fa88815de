// Mates by checks alone. What is searched is a tree of questions: "does a check lead to mate?" for
// the attacker, "do all evasions?" for the defender. Each position keeps how many more answers
// would prove it and how many would disprove it, and the search always walks on to the position
// that stands least in the way of an answer. It walks depth first, with limits on both numbers that
// say when another branch has become the nearer one, and keeps the numbers in a table. A proven
// mate also knows its length, so the line is read off the table: always to a shorter mate, never
// round in a circle. Covered by tests/search/check_mates_test.cpp.
#include <algorithm>
#include <array>
#include <bit>
#include <optional>
#include <utility>

#include "kairos/rules/checks.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/mate.hpp"

namespace kairos::search {

using rules::Key;
using rules::Move;
using rules::Position;

namespace {

using Number = std::uint32_t;
constexpr Number infinite = 1U << 30;
constexpr std::size_t longest_path = 60;         // plies; what is longer counts as no mate
constexpr std::uint64_t most_entries = 1 << 18;  // of the table, about 8 MB

// How many more answers it takes to show that the side to move gets what it wants (the attacker a
// mate, the defender an end of the checks), and that it does not.
struct Numbers {
  Number proof = 1;
  Number disproof = 1;
  std::size_t plies = 0;  // to the mate, once there is one
};

struct Entry {
  Key key = 0;
  Numbers numbers;
};

// The moves of a position, cut down to checks for the attacker, and where they lead.
struct Options {
  rules::MoveList moves;
  std::array<Key, 256> keys;

  Options(const Position& p, bool attacks) {
    rules::MoveList all;
    rules::legal_moves(p, all);
    const rules::Checks checks(p);
    for (const Move m : all) {
      if (attacks && !checks.given_by(m)) continue;
      keys[static_cast<std::size_t>(moves.size())] = p.after(m).key();
      moves.push(m);
    }
  }
};

class Proof {
 public:
  explicit Proof(std::uint64_t nodes)
      : allowed_(std::min(nodes, std::uint64_t{1} << 62)),
        table_(std::bit_ceil(2 * std::min(nodes, most_entries / 2))) {}

  bool found(const Position& root) {
    expand(root, true, {infinite, infinite, 0});
    return at(root.key()).proof == 0;
  }
  // The mate from a proven position on, against the longest defence; nothing when the table has
  // lost part of the proof.
  std::optional<std::vector<Move>> line(const Position& p, bool attacks);
  [[nodiscard]] std::uint64_t nodes() const { return nodes_; }

 private:
  void expand(const Position& p, bool attacks, Numbers limits);
  [[nodiscard]] Entry& slot(Key key) { return table_[key & (table_.size() - 1)]; }
  [[nodiscard]] Numbers at(Key key) {
    const Entry& e = slot(key);
    return e.key == key ? e.numbers : Numbers{};
  }
  // The same for a move from the present position; `attacks`: its mover does. Repeating a position
  // is the attacker's failure.
  [[nodiscard]] Numbers after(Key key, bool attacks) {
    const bool repeats = std::find(path_.begin(), path_.end(), key) != path_.end();
    if (!repeats) return at(key);
    return attacks ? Numbers{0, infinite, 0} : Numbers{infinite, 0, 0};
  }

  std::uint64_t allowed_;
  std::uint64_t nodes_ = 0;
  std::vector<Entry> table_;
  std::vector<Key> path_;
};

// Works below `p` until either of its numbers reaches its limit.
void Proof::expand(const Position& p, bool attacks, Numbers limits) {
  ++nodes_;
  const Options options(p, attacks);
  const auto size = static_cast<std::size_t>(options.moves.size());
  const bool too_long = path_.size() >= longest_path && attacks;
  path_.push_back(p.key());
  Numbers all{infinite, 0, 0};
  while (!too_long) {
    all = {infinite, 0, 0};
    Number second = infinite;
    std::size_t best = 0;
    Numbers best_child;
    for (std::size_t i = 0; i < size; ++i) {
      const Numbers child = after(options.keys[i], attacks);
      all.disproof = std::min(infinite, all.disproof + child.proof);
      if (!attacks) all.plies = std::max(all.plies, child.plies + 1);
      if (child.disproof < all.proof) {
        second = all.proof;
        all.proof = child.disproof;
        best = i;
        best_child = child;
        if (attacks) all.plies = child.plies + 1;
      } else {
        second = std::min(second, child.disproof);
      }
    }
    if (all.proof >= limits.proof || all.disproof >= limits.disproof || nodes_ >= allowed_) break;
    const Numbers child_limits{
        std::min(infinite, limits.disproof - all.disproof + best_child.proof),
        std::min(limits.proof, second + 1), 0};
    expand(p.after(options.moves[best]), !attacks, child_limits);
  }
  path_.pop_back();
  slot(p.key()) = {p.key(), all};
}

std::optional<std::vector<Move>> Proof::line(const Position& p, bool attacks) {
  if (++nodes_ > 2 * allowed_) return std::nullopt;
  const Options options(p, attacks);
  const std::size_t plies = at(p.key()).plies;
  std::optional<std::vector<Move>> longest;
  if (!attacks && options.moves.empty()) longest.emplace();
  for (std::size_t i = 0; i < static_cast<std::size_t>(options.moves.size()); ++i) {
    const Numbers child = at(options.keys[i]);
    const bool is_mate = (attacks ? child.disproof : child.proof) == 0 && child.plies < plies;
    if (attacks && !is_mate) continue;
    if (!is_mate) return std::nullopt;
    auto rest = line(p.after(options.moves[i]), !attacks);
    if (!rest) return std::nullopt;
    if (!longest || rest->size() >= longest->size()) {
      rest->insert(rest->begin(), options.moves[i]);
      longest = std::move(rest);
    }
    if (attacks) break;
  }
  return longest;
}

}  // namespace

ForcedMate mate_by_checks(const Position& root, std::uint64_t nodes) {
  ForcedMate result;
  constexpr std::uint64_t least_nodes = 16;
  if (nodes < least_nodes || root.halfmove_clock() > 50) return result;
  Proof proof(nodes);
  if (proof.found(root)) {
    if (auto moves = proof.line(root, true)) {
      result.line = {mate_in_plies(static_cast<int>(moves->size())), std::move(*moves)};
    }
  }
  result.nodes = proof.nodes();
  return result;
}

}  // namespace kairos::search
