#include "oracles/search_naive.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <vector>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/setup.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/search/settled.hpp"

#include "evaluator.hpp"

namespace kairos::oracles {

using rules::Color;
using rules::Move;
using rules::Piece;
using rules::PieceType;
using rules::Position;
using rules::Square;
using search::Score;

namespace {

using Board = std::array<Piece, 64>;

Board board_of(const Position& p) {
  Board b{};
  for (int s = 0; s < 64; ++s) {
    b[static_cast<std::size_t>(s)] = p.piece_on(static_cast<Square>(s));
  }
  return b;
}

Piece at(const Board& b, int file, int rank) {
  return b[static_cast<std::size_t>(rank * 8 + file)];
}

// Whether the man on `from` attacks `to`, walking square by square.
bool attacks(const Board& b, int from, int to) {
  const Piece man = b[static_cast<std::size_t>(from)];
  if (man == rules::no_piece || from == to) return false;
  const int df = to % 8 - from % 8, dr = to / 8 - from / 8;
  const int af = std::abs(df), ar = std::abs(dr);
  const bool line = df == 0 || dr == 0, diagonal = af == ar;
  switch (rules::type_of(man)) {
    case rules::pawn:
      return af == 1 && dr == (rules::color_of(man) == rules::white ? 1 : -1);
    case rules::knight:
      return af * ar == 2;
    case rules::king:
      return std::max(af, ar) == 1;
    case rules::bishop:
      if (!diagonal) return false;
      break;
    case rules::rook:
      if (!line) return false;
      break;
    case rules::queen:
      if (!line && !diagonal) return false;
      break;
    case rules::no_piece_type:
      return false;
  }
  const int sf = (df > 0) - (df < 0), sr = (dr > 0) - (dr < 0);
  for (int f = from % 8 + sf, r = from / 8 + sr; f != to % 8 || r != to / 8; f += sf, r += sr) {
    if (at(b, f, r) != rules::no_piece) return false;
  }
  return true;
}

std::vector<int> sliders_on_king(const Board& b, Color side) {
  const Piece own_king = rules::make_piece(side, rules::king);
  const auto king = static_cast<int>(std::find(b.begin(), b.end(), own_king) - b.begin());
  std::vector<int> result;
  for (int s = 0; s < 64; ++s) {
    const Piece man = b[static_cast<std::size_t>(s)];
    if (man == rules::no_piece || rules::color_of(man) == side || king == 64) continue;
    const PieceType t = rules::type_of(man);
    const bool slides = t == rules::bishop || t == rules::rook || t == rules::queen;
    if (slides && attacks(b, s, king)) result.push_back(s);
  }
  return result;
}

// Whether taking opens a line onto the own king.
bool is_pinned(const Board& b, int from, int to) {
  const Color side = rules::color_of(b[static_cast<std::size_t>(from)]);
  const auto before = sliders_on_king(b, side);
  Board after = b;
  after[static_cast<std::size_t>(to)] = after[static_cast<std::size_t>(from)];
  after[static_cast<std::size_t>(from)] = rules::no_piece;
  for (const int s : sliders_on_king(after, side)) {
    if (std::find(before.begin(), before.end(), s) == before.end()) return true;
  }
  return false;
}

Score value_of(Piece man) {
  return rules::type_of(man) == rules::king ? 20000 : search::nominal_value(rules::type_of(man));
}

// What the side to move wins at best by taking on `to`, or by leaving it.
Score best_capture(const Board& b, int to, Color side) {
  int taker = -1;
  bool guarded = false;
  for (int s = 0; s < 64; ++s) {
    if (!attacks(b, s, to)) continue;
    const Piece man = b[static_cast<std::size_t>(s)];
    if (rules::color_of(man) != side) {
      guarded = true;
    } else if (rules::type_of(man) == rules::king || !is_pinned(b, s, to)) {
      if (taker < 0 || value_of(man) < value_of(b[static_cast<std::size_t>(taker)])) taker = s;
    }
  }
  if (taker < 0) return 0;
  const Piece man = b[static_cast<std::size_t>(taker)];
  if (rules::type_of(man) == rules::king && guarded) return 0;
  Board after = b;
  after[static_cast<std::size_t>(to)] = man;
  after[static_cast<std::size_t>(taker)] = rules::no_piece;
  const Score won = value_of(b[static_cast<std::size_t>(to)]);
  return std::max(0, won - best_capture(after, to, ~side));
}

Score gain_of(const Position& p, Move m) {
  Score gain = 0;
  if (m.is_en_passant()) gain = 100;
  if (!p.is_empty(m.to())) gain = search::nominal_value(rules::type_of(p.piece_on(m.to())));
  if (m.is_promotion()) gain += search::nominal_value(m.promoted()) - 100;
  return gain;
}

}  // namespace

Score naive_exchange(const Position& position, Move move) {
  if (move.is_castling()) return 0;
  Board b = board_of(position);
  const Color us = position.side_to_move();
  const Piece arriving =
      move.is_promotion() ? rules::make_piece(us, move.promoted()) : b[move.from()];
  b[move.to()] = arriving;
  b[move.from()] = rules::no_piece;
  if (move.is_en_passant()) b[us == rules::white ? move.to() - 8 : move.to() + 8] = rules::no_piece;
  return gain_of(position, move) - best_capture(b, move.to(), ~us);
}

namespace {

// Balance the side to move reaches; mates as +-mate_score.
Score settle_value(const Position& p, int plies, Score balance) {
  rules::MoveList all;
  rules::legal_moves(p, all);
  if (all.empty()) return p.in_check() ? -search::mate_score : 0;
  const bool quiesce = plies <= 0;
  Score best = quiesce && !p.in_check() ? balance : -search::infinite_score;
  for (const Move m : all) {
    const bool noisy = p.is_capture(m) || m.is_promotion();
    if (quiesce && !p.in_check() && !noisy) continue;
    best = std::max(best, -settle_value(p.after(m), plies - 1, -(balance + gain_of(p, m))));
  }
  return best;
}

}  // namespace

Score naive_settle(const Position& position, int plies) {
  Score balance = search::nominal_balance(position);
  if (position.side_to_move() == rules::black) balance = -balance;
  const Score value = settle_value(position, plies, balance);
  return search::is_mate(value) ? value : value - balance;
}

namespace {

class Minimax {
 public:
  std::vector<Score> search_root(const Position& p, int depth) {
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    std::vector<Score> scores;
    path_.push_back(p.key());
    for (const Move m : moves) scores.push_back(-search(p.after(m), depth - 1, 1));
    path_.pop_back();
    return scores;
  }

 private:
  Score search(const Position& p, int depth, int ply) {
    if (is_drawn(p)) return search::draw_score;
    if (depth == 0) {
      return quiesce(p, ply, true, -search::infinite_score, search::infinite_score);
    }
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    if (moves.empty()) return p.in_check() ? search::mated_in_plies(ply) : search::draw_score;
    Score best = -search::infinite_score;
    path_.push_back(p.key());
    for (const Move m : moves) best = std::max(best, -search(p.after(m), depth - 1, ply + 1));
    path_.pop_back();
    return p.in_check() ? best : within_knowledge(evaluate(p), best);
  }

  // With plain alpha-beta: all captures of a middlegame in every order are too many.
  Score quiesce(const Position& p, int ply, bool with_checks, Score alpha, Score beta) {
    if (is_drawn(p)) return search::draw_score;
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    Score best = p.in_check() ? search::mated_in_plies(ply) : evaluate(p).score;
    path_.push_back(p.key());
    for (const Move m : moves) {
      if (best >= beta) break;
      const bool noisy = p.is_capture(m) || m.is_promotion();
      const bool minor = m.is_promotion() && m.promoted() != rules::queen;
      const bool wanted = noisy ? !minor : with_checks && p.after(m).in_check();
      if (!p.in_check() && (!wanted || search::exchange_value(p, m) < 0)) continue;
      const Score lowest = std::max(alpha, best);
      best = std::max(best, -quiesce(p.after(m), ply + 1, false, -beta, -lowest));
    }
    path_.pop_back();
    return best;
  }

  [[nodiscard]] bool is_drawn(const Position& p) const {
    const bool mated = p.in_check() && !rules::has_legal_move(p);
    return (p.halfmove_clock() >= 100 && !mated) || rules::is_bare_material(p) ||
           std::find(path_.begin(), path_.end(), p.key()) != path_.end();
  }

  // A pawn that is known to win does so, whatever is seen of it within the depth.
  static Score within_knowledge(search::Evaluation known, Score best) {
    if (known.certainty != search::Certainty::exact || known.score == search::draw_score) {
      return best;
    }
    return known.score > 0 ? std::max(best, search::least_exact_win)
                           : std::min(best, -search::least_exact_win);
  }

  search::Evaluation evaluate(const Position& p) {
    evaluator_.reset(p);
    return evaluator_.evaluate();
  }

  search::Evaluator evaluator_;
  std::vector<rules::Key> path_;
};

}  // namespace

std::vector<Score> naive_search(const Position& position, int depth) {
  return Minimax().search_root(position, depth);
}

bool naive_mates(const Position& position, int moves) {
  rules::MoveList attacks;
  rules::legal_moves(position, attacks);
  for (const Move attack : attacks) {
    const Position defending = position.after(attack);
    rules::MoveList defences;
    rules::legal_moves(defending, defences);
    if (defences.empty()) {
      if (defending.in_check()) return true;
      continue;
    }
    if (moves <= 1) continue;
    const bool all = std::all_of(defences.begin(), defences.end(), [&](Move defence) {
      return naive_mates(defending.after(defence), moves - 1);
    });
    if (all) return true;
  }
  return false;
}

ThreeMen::ThreeMen(PieceType man) {
  struct Known {
    Position position;
    int plies;  // -1: not lost so far
  };
  std::vector<Known> white, black;
  std::map<rules::Key, std::size_t> black_index;
  for (int wk = 0; wk < 64; ++wk) {
    for (int m = 0; m < 64; ++m) {
      for (int bk = 0; bk < 64; ++bk) {
        if (wk == m || wk == bk || m == bk) continue;
        rules::Setup setup;
        setup.board[static_cast<std::size_t>(wk)] = rules::white_king;
        setup.board[static_cast<std::size_t>(m)] = rules::make_piece(rules::white, man);
        setup.board[static_cast<std::size_t>(bk)] = rules::black_king;
        if (auto p = rules::make_position(setup)) white.push_back({*p, -1});
        setup.side_to_move = rules::black;
        if (auto p = rules::make_position(setup)) {
          black_index[p->key()] = black.size();
          black.push_back({*p, -1});
        }
      }
    }
  }
  // Round by round: Black lost in n plies, then White winning in n + 1.
  for (int plies = 0, quiet_rounds = 0; quiet_rounds < 2; plies += 2) {
    bool changed = false;
    for (Known& b : black) {
      if (b.plies >= 0) continue;
      rules::MoveList moves;
      rules::legal_moves(b.position, moves);
      if (moves.empty() && !b.position.in_check()) continue;
      const bool lost = std::all_of(moves.begin(), moves.end(), [&](Move m) {
        return plies_.contains(b.position.after(m).key());
      });
      if (lost) {
        b.plies = plies;
        changed = true;
      }
    }
    for (Known& w : white) {
      if (w.plies >= 0) continue;
      rules::MoveList moves;
      rules::legal_moves(w.position, moves);
      for (const Move m : moves) {
        const auto found = black_index.find(w.position.after(m).key());
        if (found != black_index.end() && black[found->second].plies >= 0) w.plies = plies + 1;
      }
      if (w.plies >= 0) changed = true;
    }
    for (const Known& w : white) {
      if (w.plies >= 0) plies_.emplace(w.position.key(), w.plies);
    }
    quiet_rounds = changed ? 0 : quiet_rounds + 1;
  }
}

std::optional<int> ThreeMen::moves_to_mate(const Position& p) const {
  const auto found = plies_.find(p.key());
  if (found == plies_.end()) return std::nullopt;
  return (found->second + 1) / 2;
}

int ThreeMen::longest() const {
  int longest = 0;
  for (const auto& [key, plies] : plies_) longest = std::max(longest, (plies + 1) / 2);
  return longest;
}

Position random_play(std::mt19937_64& random, const Position& start, int plies) {
  Position p = start;
  for (int i = 0; i < plies; ++i) {
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    if (moves.empty()) break;
    p.play(moves[random() % moves.size()]);
  }
  return p;
}

}  // namespace kairos::oracles
