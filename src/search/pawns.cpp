#include <bit>

#include "terms.hpp"

namespace kairos::search {

using rules::bit;
using rules::Bitboard;
using rules::Color;
using rules::Square;

namespace {

// A pawn is backward when no neighbour can ever guard it and its way on is held by an enemy pawn.
bool is_backward(Color us, Square s, Bitboard own, Bitboard enemy_attacks) {
  const Bitboard self = bit(s);
  const Bitboard level_or_behind = sideways(self | ahead(~us, self));
  return (own & level_or_behind) == 0 && (rules::forward(us, self) & enemy_attacks) != 0;
}

// A candidate has nobody in front and at least as many helpers as guards on its way.
bool is_candidate(Color us, Square s, Bitboard own, Bitboard enemy) {
  const Bitboard self = bit(s);
  const Bitboard front = ahead(us, self);
  if ((front & enemy) != 0) return false;
  const int guards = rules::count(sideways(front) & enemy);
  const int helpers = rules::count(sideways(self | ahead(~us, self)) & own);
  return helpers >= guards;
}

Taper judge_pawn(Color us, Square s, Bitboard own, Bitboard enemy, const PawnStructure& structure,
                 const Weights& w) {
  const Bitboard self = bit(s);
  const Bitboard front = ahead(us, self);
  const Bitboard neighbours = own & sideways(self | front | ahead(~us, self));
  const bool open = (front & (own | enemy)) == 0;
  const auto rank = index(rules::rank_seen_by(us, s));
  Taper sum;
  if ((structure.attacks[us] & self) != 0) sum += w.supported[rank];
  if ((sideways(self) & own) != 0) sum += w.phalanx[rank];
  if (neighbours == 0) {
    sum += open ? w.isolated[0] + w.isolated_on_open_file[0] : w.isolated[0];
  } else if (is_backward(us, s, own, structure.attacks[~us])) {
    sum += open ? w.backward[0] + w.backward_on_open_file[0] : w.backward[0];
  }
  if ((front & own) != 0) {
    sum += w.doubled[0];
  } else if ((structure.passed[us] & self) != 0) {
    sum += w.passed[rank];
  } else if (is_candidate(us, s, own, enemy)) {
    sum += w.candidate[rank];
  }
  return sum;
}

}  // namespace

PawnStructure study_pawns(const rules::Position& position, const Parameters& p) {
  PawnStructure result;
  for (const Color us : {rules::white, rules::black}) {
    const Bitboard own = position.pieces(us, rules::pawn);
    result.pawns[us] = own;
    result.attacks[us] = pawn_attack_set(us, own);
    result.attack_span[us] = result.attacks[us] | ahead(us, result.attacks[us]);
    result.wings[us] = wings_of(position, us);
  }
  for (const Color us : {rules::white, rules::black}) {
    const Bitboard own = result.pawns[us];
    const Bitboard enemy = result.pawns[~us];
    const Bitboard stoppers = ahead(~us, enemy) | result.attack_span[~us];
    result.passed[us] = own & ~stoppers & ~ahead(~us, own);
    const auto& placed = p.placed[index(result.wings[us])][rules::pawn];
    Taper sum;
    for (Bitboard rest = own; rest != 0;) {
      const Square s = rules::take_first(rest);
      sum += placed[relative(us, s)];
      sum += judge_pawn(us, s, own, enemy, result, p.w);
    }
    us == rules::white ? result.score += sum : result.score -= sum;
  }
  return result;
}

namespace {
constexpr std::size_t table_size = 8192;  // a power of two; about 800 KB
}

PawnTable::PawnTable() : entries_(table_size) {}

const PawnStructure& PawnTable::find(const rules::Position& position, const Parameters& p) {
  const Bitboard white = position.pieces(rules::white, rules::pawn);
  const Bitboard black = position.pieces(rules::black, rules::pawn);
  // Two odd multipliers (digits of the golden ratio and of e) mix the pawns into the upper bits.
  const std::uint64_t mixed =
      white * 0x9E3779B97F4A7C15 ^ std::rotl(black, 32) * 0xADF85458A2BB4A9B;
  const int wings = wings_of(position, rules::white);
  const auto place = (mixed >> 51) ^ static_cast<std::uint64_t>(wings);
  PawnStructure& entry = entries_[place];
  if (entry.pawns[rules::white] != white || entry.pawns[rules::black] != black ||
      entry.wings[rules::white] != wings) {
    entry = study_pawns(position, p);
  }
  study_cover(position, p.w, entry);
  return entry;
}

}  // namespace kairos::search
