#include "terms.hpp"

// What is attacked: men en prise, greater men attacked by lesser ones, passed pawns on the march,
// and the room behind the pawns.

namespace kairos::search {

using rules::bit;
using rules::Bitboard;
using rules::Color;
using rules::Position;
using rules::Square;

namespace {

// Safe squares from which a man could attack the enemy queen next.
template <Color us>
Taper judge_queen_threats(const Context& c, Bitboard strongly_held) {
  const Position& pos = c.position;
  constexpr Color them = ~us;
  const Bitboard queens = pos.pieces(them, rules::queen);
  if (queens == 0 || rules::more_than_one(queens)) return {};
  const Square queen = rules::first(queens);
  const Bitboard safe = ~strongly_held & ~pos.pieces(us);
  const Bitboard leaps = rules::knight_attacks(queen) & c.attacks[us][rules::knight] & safe;
  const Bitboard slides =
      (rules::bishop_attacks(queen, pos.occupied()) & c.attacks[us][rules::bishop]) |
      (rules::rook_attacks(queen, pos.occupied()) & c.attacks[us][rules::rook]);
  return c.p.w.knight_hits_queen[0] * rules::count(leaps) +
         c.p.w.slider_hits_queen[0] * rules::count(slides & safe & c.twice[us]);
}

}  // namespace

template <Color us>
Taper judge_threats(const Context& c) {
  const Position& pos = c.position;
  const Weights& w = c.p.w;
  constexpr Color them = ~us;
  const Bitboard enemy = pos.pieces(them);
  const Bitboard pieces = enemy & ~c.pawns.pawns[them];
  // Held for good: by a pawn, or twice where we attack only once.
  const Bitboard strongly_held = c.attacks[them][rules::pawn] | (c.twice[them] & ~c.twice[us]);
  const Bitboard weak = enemy & ~strongly_held & c.all[us];
  Taper sum;
  const Bitboard by_minor = c.attacks[us][rules::knight] | c.attacks[us][rules::bishop];
  for (Bitboard hit = (weak | (pieces & strongly_held)) & by_minor; hit != 0;) {
    sum += w.minor_threat[rules::type_of(pos.piece_on(rules::take_first(hit)))];
  }
  for (Bitboard hit = (weak | pos.pieces(them, rules::queen)) & c.attacks[us][rules::rook];
       hit != 0;) {
    sum += w.rook_threat[rules::type_of(pos.piece_on(rules::take_first(hit)))];
  }
  if ((weak & c.attacks[us][rules::king]) != 0) sum += w.king_threat[0];
  const Bitboard loose = weak & (~c.all[them] | (pieces & c.twice[us]));
  sum += w.hanging[0] * rules::count(loose);

  const Bitboard safe = ~c.all[them] | c.all[us];
  const Bitboard pawns = c.pawns.pawns[us];
  for (Bitboard hit = pawn_attack_set(us, pawns & safe) & pieces; hit != 0;) {
    sum += w.pawn_threat[rules::type_of(pos.piece_on(rules::take_first(hit)))];
  }
  sum += judge_queen_threats<us>(c, strongly_held);
  const Bitboard empty = ~pos.occupied();
  const Bitboard third = us == rules::white ? rules::rank_mask(2) : rules::rank_mask(5);
  Bitboard pushes = rules::forward(us, pawns) & empty;
  pushes |= rules::forward(us, pushes & third) & empty;
  pushes &= safe & ~c.attacks[them][rules::pawn];
  sum += w.pawn_push_threat[0] * rules::count(pawn_attack_set(us, pushes) & pieces);

  const Bitboard contested = c.all[them] & ~strongly_held & c.all[us] & empty;
  return sum + w.restricted[0] * rules::count(contested);
}

namespace {

// Whether the pawn runs home alone: the enemy has pawns only and his king is outside the square.
template <Color us>
bool is_unstoppable(const Context& c, Square s) {
  const Position& pos = c.position;
  constexpr Color them = ~us;
  if (pos.pieces(them) != (pos.pieces(them, rules::king) | c.pawns.pawns[them])) return false;
  if ((ahead(us, bit(s)) & pos.occupied()) != 0) return false;
  const Square goal = relative(us, rules::square_at(rules::file_of(s), 7));
  int steps = 7 - rules::rank_seen_by(us, s);
  if (rules::rank_seen_by(us, s) == 1) --steps;
  const int lag = pos.side_to_move() == us ? 0 : 1;
  return distance(pos.king_square(them), goal) - lag > steps;
}

template <Color us>
Taper judge_passer(const Context& c, Square s) {
  const Position& pos = c.position;
  const Weights& w = c.p.w;
  const auto rank = index(rules::rank_seen_by(us, s));
  const Bitboard front = ahead(us, bit(s));
  const Bitboard stop_bit = rules::forward(us, bit(s));
  const Square stop = rules::first(stop_bit);
  Taper sum = w.passed_own_king[rank] * distance(pos.king_square(us), stop) +
              w.passed_enemy_king[rank] * distance(pos.king_square(~us), stop);
  if ((stop_bit & pos.occupied()) != 0) {
    sum += w.passed_blocked[rank];
  } else if ((front & (c.all[~us] | pos.occupied())) == 0) {
    sum += w.passed_free[rank];
  } else if ((stop_bit & c.all[~us]) == 0 || (stop_bit & c.all[us]) != 0) {
    // The next step is safe: half of what a free road is worth.
    sum += Taper(w.passed_free[rank].middlegame() / 2, w.passed_free[rank].endgame() / 2);
  }
  if (((bit(s) | stop_bit) & c.attacks[us][rules::pawn]) != 0) sum += w.passed_supported[0];
  sum += w.passed_from_edge[0] * files_from_edge(s);
  if (is_unstoppable<us>(c, s)) sum += w.passed_unstoppable[0];
  return sum;
}

}  // namespace

template <Color us>
Taper judge_passed(const Context& c) {
  Taper sum;
  for (Bitboard rest = c.pawns.passed[us]; rest != 0;) {
    sum += judge_passer<us>(c, rules::take_first(rest));
  }
  return sum;
}

template <Color us>
Taper judge_space(const Context& c) {
  const Bitboard files =
      rules::file_mask(2) | rules::file_mask(3) | rules::file_mask(4) | rules::file_mask(5);
  const Bitboard ranks = us == rules::white
                             ? rules::rank_mask(1) | rules::rank_mask(2) | rules::rank_mask(3)
                             : rules::rank_mask(6) | rules::rank_mask(5) | rules::rank_mask(4);
  const Bitboard own = c.pawns.pawns[us];
  const Bitboard safe = files & ranks & ~own & ~c.attacks[~us][rules::pawn];
  const Bitboard behind = safe & ahead(~us, own) & ~c.all[~us];
  return c.p.w.space[0] * (rules::count(safe) + rules::count(behind));
}

template Taper judge_threats<rules::white>(const Context& c);
template Taper judge_threats<rules::black>(const Context& c);
template Taper judge_passed<rules::white>(const Context& c);
template Taper judge_passed<rules::black>(const Context& c);
template Taper judge_space<rules::white>(const Context& c);
template Taper judge_space<rules::black>(const Context& c);

}  // namespace kairos::search
