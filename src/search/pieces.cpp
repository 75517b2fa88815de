#include <algorithm>

#include "terms.hpp"

// Place, mobility and good or bad squares of the men other than pawns. Filling the attack maps is
// a by-product, so this runs for both sides before the other terms: threats.cpp and
// king_safety.cpp read them. Each term is one weight times one count (weights.hpp), so that the
// fitting tool sees a function that is nearly linear in its weights.

namespace kairos::search {

using rules::bit;
using rules::Bitboard;
using rules::Color;
using rules::PieceType;
using rules::Position;
using rules::Square;

namespace {

constexpr Bitboard long_diagonals = 0x8142241818244281;
constexpr Bitboard centre = 0x0000001818000000;

// What the men of one side attack, gathered here and written to the Context once a kind: so it
// stays in registers on the way.
template <Color us>
struct Attacks {
  explicit Attacks(const Context& c) : all(c.all[us]), twice(c.twice[us]) {}

  void note(const Context& c, PieceType type, Bitboard attacked) {
    twice |= all & attacked;
    all |= attacked;
    of_kind |= attacked;
    const Bitboard on_ring = attacked & c.king_ring[~us];
    if (on_ring == 0) return;
    ++ring_attackers;
    danger += c.p.w.danger_attacker[type] + c.p.w.danger_ring_attack[0] * rules::count(on_ring);
  }
  void write(Context& c, PieceType type) const {
    c.all[us] = all;
    c.twice[us] = twice;
    c.attacks[us][type] = of_kind;
    c.ring_attackers[~us] += ring_attackers;
    c.danger[~us] += danger;
  }

  Bitboard all;
  Bitboard twice;
  Bitboard of_kind = 0;
  int ring_attackers = 0;
  int danger = 0;
};

// Squares attacked as far as mobility goes: sliders look through their own queens and rooks, and a
// pinned man only counts along the pin.
template <Color us, PieceType type>
Bitboard reach(const Context& c, Square s) {
  const Position& pos = c.position;
  const Bitboard occupied = pos.occupied();
  Bitboard attacked = 0;
  if constexpr (type == rules::knight) {
    attacked = rules::knight_attacks(s);
  } else if constexpr (type == rules::bishop) {
    attacked = rules::bishop_attacks(s, occupied ^ pos.pieces(us, rules::queen));
  } else if constexpr (type == rules::rook) {
    const Bitboard friends = pos.pieces(us, rules::queen) | pos.pieces(us, rules::rook);
    attacked = rules::rook_attacks(s, occupied ^ friends);
  } else {
    attacked = rules::queen_attacks(s, occupied);
  }
  if ((c.pinned[us] & bit(s)) != 0) {
    attacked &= rules::line_through(pos.king_square(us), s);
  }
  return attacked;
}

template <Color us>
bool is_outpost(const Context& c, Square s) {
  const int rank = rules::rank_seen_by(us, s);
  return rank >= 3 && rank <= 5 && (c.pawns.attack_span[~us] & bit(s)) == 0 &&
         (c.pawns.attacks[us] & bit(s)) != 0;
}

template <Color us, PieceType type>
Taper judge_minor(const Context& c, Square s) {
  const Weights& w = c.p.w;
  Taper sum;
  const Bitboard own_pawns = c.pawns.pawns[us];
  if (is_outpost<us>(c, s)) {
    sum += type == rules::bishop ? w.bishop_outpost[0]
           : (centre | sideways(centre)) & (bit(s) | rules::forward(~us, bit(s)))
               ? w.knight_outpost[1]
               : w.knight_outpost[0];
  }
  sum += w.minor_from_king[type == rules::bishop ? 1 : 0] * distance(s, c.position.king_square(us));
  const Bitboard in_front = rules::forward(us, bit(s));
  if ((in_front & c.position.pieces(rules::pawn)) != 0) sum += w.minor_behind_pawn[0];
  if (type == rules::bishop) {
    const Bitboard same_colour =
        (rules::dark_squares & bit(s)) != 0 ? rules::dark_squares : ~rules::dark_squares;
    sum += w.bishop_own_pawns[0] * rules::count(own_pawns & same_colour);
    if ((long_diagonals & bit(s)) != 0 &&
        rules::more_than_one(rules::bishop_attacks(s, c.position.pieces(rules::pawn)) & centre)) {
      sum += w.bishop_long_diagonal[0];
    }
  } else {
    sum += w.knight_per_pawn[0] * (rules::count(own_pawns) - 5);
  }
  return sum;
}

template <Color us>
Taper judge_rook(const Context& c, Square s, int mobility) {
  const Weights& w = c.p.w;
  const Bitboard file = rules::file_mask(rules::file_of(s));
  Taper sum = w.rook_per_pawn[0] * (rules::count(c.pawns.pawns[us]) - 5);
  if ((file & c.pawns.pawns[us]) == 0) {
    sum += (file & c.pawns.pawns[~us]) == 0 ? w.rook_open_file[0] : w.rook_half_open_file[0];
  } else if (mobility <= 3) {
    // Shut in by its own king on the way to the corner.
    const int king_file = rules::file_of(c.position.king_square(us));
    const int rook_file = rules::file_of(s);
    if (king_file < 4 ? rook_file < king_file : rook_file > king_file) sum += w.rook_trapped[0];
  }
  const Bitboard passers = c.pawns.passed[us] | c.pawns.passed[~us];
  const Bitboard theirs_ahead = ahead(us, bit(s)) & c.pawns.passed[us];
  const Bitboard enemy_ahead = ahead(~us, bit(s)) & c.pawns.passed[~us];
  if (passers != 0 && (theirs_ahead | enemy_ahead) != 0) sum += w.rook_behind_passer[0];
  return sum;
}

// A queen with an enemy bishop or rook behind one man in between: a pin or discovery is in the air.
template <Color us>
Taper judge_queen(const Context& c, Square s) {
  const Position& pos = c.position;
  Bitboard snipers =
      (rules::attacks_on_empty_board(rules::bishop, s) & pos.pieces(~us, rules::bishop)) |
      (rules::attacks_on_empty_board(rules::rook, s) & pos.pieces(~us, rules::rook));
  while (snipers != 0) {
    const Bitboard men = rules::between(s, rules::take_first(snipers)) & pos.occupied();
    if (men != 0 && !rules::more_than_one(men)) return c.p.w.queen_on_xray[0];
  }
  return {};
}

template <Color us, PieceType type>
Taper judge_kind(Context& c) {
  const Weights& w = c.p.w;
  Taper sum;
  Attacks<us> attacks(c);
  const auto& placed = c.p.placed[index(c.pawns.wings[us])][type];
  for (Bitboard men = c.position.pieces(us, type); men != 0;) {
    const Square s = rules::take_first(men);
    sum += placed[relative(us, s)];
    const Bitboard attacked = reach<us, type>(c, s);
    attacks.note(c, type, attacked);
    Bitboard free = attacked & c.mobility_area[us];
    if constexpr (type == rules::queen) {
      free &= ~(c.attacks[~us][rules::knight] | c.attacks[~us][rules::bishop]);
    }
    const int mobility = rules::count(free);
    if constexpr (type == rules::knight) sum += w.knight_mobility[index(mobility)];
    if constexpr (type == rules::bishop) sum += w.bishop_mobility[index(mobility)];
    if constexpr (type == rules::rook) sum += w.rook_mobility[index(mobility)];
    if constexpr (type == rules::queen) sum += w.queen_mobility[index(mobility / 2)];
    if constexpr (type == rules::knight || type == rules::bishop) {
      sum += judge_minor<us, type>(c, s);
    }
    if constexpr (type == rules::rook) sum += judge_rook<us>(c, s, mobility);
    if constexpr (type == rules::queen) sum += judge_queen<us>(c, s);
  }
  attacks.write(c, type);
  return sum;
}

// The squares around the king, moved off the edge so that it is always three by three.
Bitboard ring_of(Square king) {
  const int file = std::clamp(rules::file_of(king), 1, 6);
  const int rank = std::clamp(rules::rank_of(king), 1, 6);
  const Square middle = rules::square_at(file, rank);
  return rules::king_attacks(middle) | bit(middle);
}

}  // namespace

void prepare(Context& c) {
  const Position& pos = c.position;
  for (const Color us : {rules::white, rules::black}) {
    const Square king = pos.king_square(us);
    c.attacks[us][rules::pawn] = c.pawns.attacks[us];
    c.attacks[us][rules::king] = rules::king_attacks(king);
    c.all[us] = c.attacks[us][rules::pawn] | c.attacks[us][rules::king];
    c.twice[us] = c.attacks[us][rules::pawn] & c.attacks[us][rules::king];
    c.pinned[us] = rules::lone_blockers(pos, king, ~us) & pos.pieces(us);
    c.king_ring[us] = ring_of(king);
    // Pawns that cannot move or stand at home are in the way for good.
    const Bitboard own = c.pawns.pawns[us];
    const Bitboard stuck = own & rules::forward(~us, pos.occupied());
    const Bitboard home = own & (us == rules::white ? rules::rank_mask(1) | rules::rank_mask(2)
                                                    : rules::rank_mask(6) | rules::rank_mask(5));
    c.mobility_area[us] = ~(stuck | home | pos.pieces(us, rules::king) |
                            pos.pieces(us, rules::queen) | c.pawns.attacks[~us]);
  }
}

template <Color us>
Taper judge_pieces(Context& c) {
  Taper sum = judge_kind<us, rules::knight>(c);
  sum += judge_kind<us, rules::bishop>(c);
  sum += judge_kind<us, rules::rook>(c);
  if (rules::more_than_one(c.position.pieces(us, rules::bishop))) sum += c.p.w.bishop_pair[0];
  const auto& placed = c.p.placed[index(c.pawns.wings[us])][rules::king];
  return sum + placed[relative(us, c.position.king_square(us))];
}

template <Color us>
Taper judge_queens(Context& c) {
  return judge_kind<us, rules::queen>(c);
}

template Taper judge_pieces<rules::white>(Context& c);
template Taper judge_pieces<rules::black>(Context& c);
template Taper judge_queens<rules::white>(Context& c);
template Taper judge_queens<rules::black>(Context& c);

}  // namespace kairos::search
