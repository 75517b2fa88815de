#include <algorithm>

#include "terms.hpp"

// How safe a king is: the pawns in front of it, the open files, and what the enemy men can do about
// it. Attackers, weak squares and checks add up to a danger whose cost grows with its square, since
// two attackers are worth more than twice one.

namespace kairos::search {

using rules::bit;
using rules::Bitboard;
using rules::Color;
using rules::Position;
using rules::Square;

namespace {

// Ranks of the nearest pawn of `pawns` on a file at or ahead of the king, from our side; 0 if none.
int nearest_rank(Color us, Bitboard pawns) {
  if (pawns == 0) return 0;
  const Square nearest =
      us == rules::white ? rules::first(pawns) : static_cast<Square>(63 - std::countl_zero(pawns));
  return rules::rank_seen_by(us, nearest);
}

Taper judge_file(const PawnStructure& pawns, const Weights& w, Color us, Square king, int file) {
  const Bitboard mask = rules::file_mask(file);
  const Bitboard rank = rules::rank_mask(rules::rank_of(king));
  const Bitboard zone = mask & (rank | ahead(us, rank));
  const Bitboard own = zone & pawns.pawns[us];
  const Bitboard enemy = zone & pawns.pawns[~us];
  const int own_rank = nearest_rank(us, own);
  const int enemy_rank = nearest_rank(us, enemy);
  Taper sum = file == rules::file_of(king) ? w.shelter_own_file[index(own_rank)]
                                           : w.shelter[index(own_rank)];
  if (enemy_rank != 0) {
    const bool blocked = own_rank != 0 && enemy_rank == own_rank + 1;
    sum += blocked ? w.storm_blocked[index(enemy_rank)] : w.storm[index(enemy_rank)];
  }
  if ((mask & (pawns.pawns[us] | pawns.pawns[~us])) == 0) sum += w.king_open_file[0];
  return sum;
}

Taper judge_shelter(const PawnStructure& pawns, const Weights& w, Color us, Square king) {
  const int middle = std::clamp(rules::file_of(king), 1, 6);
  Taper sum;
  for (int file = middle - 1; file <= middle + 1; ++file)
    sum += judge_file(pawns, w, us, king, file);
  return sum;
}

// Squares from which the enemy could check next move, safe ones counted by kind.
template <Color us>
int check_danger(const Context& c) {
  const Position& pos = c.position;
  const Weights& w = c.p.w;
  constexpr Color them = ~us;
  const Square king = pos.king_square(us);
  const Bitboard through = pos.occupied() ^ pos.pieces(us, rules::queen);
  const Bitboard straight = rules::rook_attacks(king, through);
  const Bitboard oblique = rules::bishop_attacks(king, through);
  const Bitboard guarded_once = c.all[us] & ~(c.attacks[us][rules::king] & c.twice[them]);
  const Bitboard safe = ~pos.pieces(them) & ~guarded_once;
  const std::array<Bitboard, 4> checks = {
      rules::knight_attacks(king) & c.attacks[them][rules::knight],
      oblique & c.attacks[them][rules::bishop], straight & c.attacks[them][rules::rook],
      (straight | oblique) & c.attacks[them][rules::queen]};
  int danger = 0;
  Bitboard unsafe = 0;
  for (std::size_t kind = 0; kind < checks.size(); ++kind) {
    if ((checks[kind] & safe) != 0) {
      danger += w.danger_safe_check[kind + 1];
    } else {
      unsafe |= checks[kind] & ~pos.pieces(them);
    }
  }
  return danger + w.danger_unsafe_check[0] * rules::count(unsafe);
}

// Who rules the king's half of the board, from our first to our fifth rank.
template <Color us>
int flank_danger(const Context& c) {
  const Weights& w = c.p.w;
  constexpr Color them = ~us;
  const Square king = c.position.king_square(us);
  constexpr Bitboard camp = us == rules::white ? 0x000000FFFFFFFFFF : Bitboard{0xFFFFFFFFFF000000};
  const Bitboard flank = camp & ((left_wing & bit(king)) != 0 ? left_wing : ~left_wing);
  const bool guard = (c.attacks[us][rules::knight] & c.attacks[us][rules::king]) != 0;
  return w.danger_flank_attack[0] * rules::count(flank & c.all[them]) +
         w.danger_flank_pressed[0] * rules::count(flank & c.twice[them]) -
         w.danger_flank_guard[0] * rules::count(flank & c.all[us]) -
         (guard ? w.danger_knight_near[0] : 0);
}

}  // namespace

void study_cover(const Position& position, const Weights& w, PawnStructure& pawns) {
  for (const Color us : {rules::white, rules::black}) {
    const Square king = position.king_square(us);
    Cover& cover = pawns.cover[us];
    if (cover.king == king) continue;
    cover = {king, judge_shelter(pawns, w, us, king), {}};
    if (pawns.pawns[us] == 0) continue;
    int nearest = 8;
    for (Bitboard rest = pawns.pawns[us]; rest != 0;) {
      nearest = std::min(nearest, distance(king, rules::take_first(rest)));
    }
    cover.near_pawns = w.king_pawn_distance[0] * nearest;
  }
}

template <Color us>
Taper judge_king(const Context& c) {
  const Weights& w = c.p.w;
  constexpr Color them = ~us;
  const Taper shelter = c.pawns.cover[us].shelter;
  const Taper sum = shelter + c.pawns.cover[us].near_pawns;
  const bool queen = c.position.pieces(them, rules::queen) != 0;
  if (c.ring_attackers[us] + (queen ? 1 : 0) < 2) return sum;

  const Bitboard held =
      c.twice[us] | (c.all[us] & ~c.attacks[us][rules::king] & ~c.attacks[us][rules::queen]);
  const Bitboard weak = c.king_ring[us] & c.all[them] & ~held;
  int danger = c.danger[us] + w.danger_base[0];
  danger += w.danger_weak_ring[0] * rules::count(weak);
  danger += w.danger_pinned[0] * rules::count(c.pinned[us]);
  danger += check_danger<us>(c);
  danger += flank_danger<us>(c) / 4;
  danger -= w.danger_shelter[0] * shelter.middlegame() / 64;
  if (!queen) danger += w.danger_no_queen[0];
  if (danger <= 0) return sum;
  danger = std::min(danger, 500);
  return sum - Taper(danger * danger / 64, danger / 4);
}

template Taper judge_king<rules::white>(const Context& c);
template Taper judge_king<rules::black>(const Context& c);

}  // namespace kairos::search
