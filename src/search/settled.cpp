#include "kairos/search/settled.hpp"

#include <algorithm>
#include <array>

#include "kairos/rules/movegen.hpp"

#include "exchange.hpp"
#include "index.hpp"

// Plain alpha-beta on the balance of men, all moves tried on both sides for the full-width plies,
// then captures, promotions and evasions until nobody wants to take any more. Nothing is pruned but
// by alpha-beta, so the value is that of the plain minimax twin (tests/oracles/search_naive) and no
// defence inside the depth is overlooked. The table only hands back values of the very same depth,
// and never on the main line, so that the line is whole; iterations of growing depth give it good
// first moves. Inside, scores are absolute balances from the side to move, a stalemate is 0 and
// mates count their distance.

namespace kairos::search {

using rules::Color;
using rules::Move;
using rules::Moves;
using rules::Position;

Score nominal_value(rules::PieceType t) {
  return nominal_values[t];
}

Score nominal_balance(const Position& position) {
  Score sum = 0;
  for (int t = rules::pawn; t < rules::king; ++t) {
    const auto type = static_cast<rules::PieceType>(t);
    sum += nominal_value(type) * (rules::count(position.pieces(rules::white, type)) -
                                  rules::count(position.pieces(rules::black, type)));
  }
  return sum;
}

Score nominal_balance(const Position& position, Color side) {
  const Score balance = nominal_balance(position);
  return side == rules::white ? balance : -balance;
}

namespace {

constexpr int line_room = 64;
constexpr std::size_t table_entries = std::size_t{1} << 16;

enum class Kind : std::uint8_t { none, upper, lower, exact };

struct Entry {
  rules::Key key = 0;
  Score score = 0;
  Move move;
  std::int8_t depth = -1;
  Kind kind = Kind::none;
};

// What the move adds to the mover's balance at once.
Score immediate_gain(const Position& p, Move m) {
  Score gain = 0;
  if (m.is_en_passant()) {
    gain = nominal_value(rules::pawn);
  } else if (!p.is_empty(m.to())) {
    gain = nominal_value(rules::type_of(p.piece_on(m.to())));
  }
  if (m.is_promotion()) gain += nominal_value(m.promoted()) - nominal_value(rules::pawn);
  return gain;
}

class Proof {
 public:
  explicit Proof(std::uint64_t node_limit) : node_limit_(node_limit), table_(table_entries) {}

  // The balance the side to move reaches; `line(ply)` then holds the moves.
  Score search(const Position& p, int ply, int depth, Score balance, Score alpha, Score beta) {
    clear_line(ply);
    if (!enter()) return 0;
    if (depth <= 0 || ply >= line_room - 1) return quiesce(p, ply, balance, alpha, beta);
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    if (moves.empty()) return p.in_check() ? mated_in_plies(ply) : draw_score;
    Entry& entry = table_[p.key() & (table_entries - 1)];
    Move hint;
    if (entry.key == p.key() && entry.kind != Kind::none) {
      hint = entry.move;
      if (entry.depth == depth && beta - alpha == 1 && !is_mate(entry.score) &&
          usable(entry, alpha, beta)) {
        return entry.score;
      }
    }
    Score best = -infinite_score;
    const Score first_alpha = alpha;
    Move best_move;
    order(p, moves, hint, ply);
    for (const Move m : moves) {
      const Position next = p.after(m);
      const Score after = -(balance + immediate_gain(p, m));
      // Later moves first have to show that they beat the best; full lines come of it.
      Score s = alpha;
      if (best != -infinite_score) {
        s = -search(next, ply + 1, depth - 1, after, -alpha - 1, -alpha);
      }
      if (best == -infinite_score || (s > alpha && s < beta)) {
        s = -search(next, ply + 1, depth - 1, after, -beta, -alpha);
      }
      if (out_of_nodes_) return 0;
      if (s <= best) continue;
      best = s;
      best_move = m;
      if (s > alpha) {
        alpha = s;
        take_line(ply, m);
      }
      if (s >= beta) {
        if (immediate_gain(p, m) == 0) killers_[index(ply)] = m;
        break;
      }
    }
    const Kind kind = best >= beta ? Kind::lower : best > first_alpha ? Kind::exact : Kind::upper;
    entry = {p.key(), best, best_move, static_cast<std::int8_t>(depth), kind};
    return best;
  }

  [[nodiscard]] std::vector<Move> line(int ply) const {
    const auto& l = lines_[index(ply)];
    return {l.begin(), l.begin() + lengths_[index(ply)]};
  }
  [[nodiscard]] std::uint64_t nodes() const { return nodes_; }
  [[nodiscard]] bool out_of_nodes() const { return out_of_nodes_; }

 private:
  bool enter() {
    if (nodes_ >= node_limit_) out_of_nodes_ = true;
    if (!out_of_nodes_) ++nodes_;
    return !out_of_nodes_;
  }

  static bool usable(const Entry& e, Score alpha, Score beta) {
    return e.kind == Kind::exact || (e.kind == Kind::lower && e.score >= beta) ||
           (e.kind == Kind::upper && e.score <= alpha);
  }

  // Captures, promotions and evasions; a side not in check may also leave things as they are.
  Score quiesce(const Position& p, int ply, Score balance, Score alpha, Score beta) {
    const bool in_check = p.in_check();
    rules::MoveList moves;
    rules::legal_moves(p, moves, in_check ? Moves::all : Moves::noisy);
    if (moves.empty()) {
      if (in_check) return mated_in_plies(ply);
      return rules::has_legal_move(p) ? balance : draw_score;
    }
    Score best = -infinite_score;
    if (!in_check) {
      best = balance;
      alpha = std::max(alpha, best);
      if (best >= beta) return best;
    }
    if (ply >= line_room - 1) return balance;
    order(p, moves, {}, ply);
    for (const Move m : moves) {
      clear_line(ply + 1);
      if (!enter()) return 0;
      const Score s =
          -quiesce(p.after(m), ply + 1, -(balance + immediate_gain(p, m)), -beta, -alpha);
      if (out_of_nodes_) return 0;
      if (s <= best) continue;
      best = s;
      if (s > alpha) {
        alpha = s;
        take_line(ply, m);
      }
      if (s >= beta) break;
    }
    return best;
  }

  void order(const Position& p, rules::MoveList& moves, Move hint, int ply) const {
    std::array<int, 256> keys;
    for (std::size_t i = 0; i < moves.size(); ++i) {
      const Move m = moves[i];
      const int gain = immediate_gain(p, m);
      int key =
          gain > 0 ? 10 * gain - nominal_value(rules::type_of(p.piece_on(m.from()))) / 100 : 0;
      if (m == killers_[index(ply)]) key += 500;
      if (m == hint) key += 100'000;
      // Insertion, so that equal moves stay in the generator's order.
      std::size_t j = i;
      for (; j > 0 && keys[j - 1] < key; --j) {
        keys[j] = keys[j - 1];
        moves[j] = moves[j - 1];
      }
      keys[j] = key;
      moves[j] = m;
    }
  }

  void clear_line(int ply) { lengths_[index(ply)] = 0; }
  void take_line(int ply, Move m) {
    auto& own = lines_[index(ply)];
    const auto& child = lines_[index(ply + 1)];
    const int length = std::min(lengths_[index(ply + 1)], line_room - 1);
    own[0] = m;
    std::copy_n(child.begin(), length, own.begin() + 1);
    lengths_[index(ply)] = length + 1;
  }

  std::uint64_t node_limit_;
  std::uint64_t nodes_ = 0;
  bool out_of_nodes_ = false;
  std::vector<Entry> table_;
  std::array<Move, line_room + 1> killers_{};
  std::array<std::array<Move, line_room>, line_room + 1> lines_{};
  std::array<int, line_room + 1> lengths_{};
};

}  // namespace

std::vector<Settled> settle_by_depth(const Position& position, SettledLimits limits,
                                     std::optional<Move> first) {
  Proof proof(limits.nodes);
  const Score balance = nominal_balance(position, position.side_to_move());
  const int plies = std::max(1, limits.plies);
  std::vector<Settled> results;
  for (int depth = 1; depth <= plies && !proof.out_of_nodes(); ++depth) {
    Settled& result = results.emplace_back();
    Score score = 0;
    if (first) {
      const Score after = balance + immediate_gain(position, *first);
      score = -proof.search(position.after(*first), 1, depth - 1, -after, -infinite_score,
                            infinite_score);
      result.line = proof.line(1);
      result.line.insert(result.line.begin(), *first);
    } else {
      score = proof.search(position, 0, depth, balance, -infinite_score, infinite_score);
      result.line = proof.line(0);
    }
    result.complete = !proof.out_of_nodes();
    result.nodes = proof.nodes();
    result.gain = !result.complete ? 0
                  : is_mate(score) ? (score > 0 ? mate_score : -mate_score)
                                   : score - balance;
  }
  return results;
}

Settled settle(const Position& position, SettledLimits limits, std::optional<Move> first) {
  return std::move(settle_by_depth(position, limits, first).back());
}

}  // namespace kairos::search
