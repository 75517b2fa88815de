#include "terms.hpp"

#include <algorithm>

#include "endings.hpp"

// The score of a position is a sum of terms, each a pair of a middlegame and an endgame value,
// blended by how much fighting material is left; the endgame half is shrunk where the stronger side
// lacks the means to win.

namespace kairos::search {

using rules::Bitboard;
using rules::Color;
using rules::Position;

namespace {

constexpr int phase_total = 256;

// 256 with all men on the board, 0 with kings and pawns; men count by their nominal value.
int phase_of(const Position& p) {
  constexpr int start_value = 62;
  const int value = 3 * rules::count(p.pieces(rules::knight) | p.pieces(rules::bishop)) +
                    5 * rules::count(p.pieces(rules::rook)) +
                    9 * rules::count(p.pieces(rules::queen));
  return std::min(phase_total, value * phase_total / start_value);
}

inline Taper sum_of_groups(Context& c) {
  constexpr Color white = rules::white, black = rules::black;
  Taper sum = c.pawns.score;
  sum += judge_pieces<white>(c) - judge_pieces<black>(c);
  sum += judge_queens<white>(c) - judge_queens<black>(c);
  sum += judge_king<white>(c) - judge_king<black>(c);
  sum += judge_threats<white>(c) - judge_threats<black>(c);
  sum += judge_passed<white>(c) - judge_passed<black>(c);
  sum += judge_space<white>(c) - judge_space<black>(c);
  return sum;
}

// How far an endgame advantage reaches: pawns, and pawns on both wings, make it count for more.
// Never turns an advantage round.
int endgame_reach(const Position& p, const Weights& w, int endgame) {
  const Bitboard pawns = p.pieces(rules::pawn);
  const bool both = (pawns & left_wing) != 0 && (pawns & ~left_wing) != 0;
  const bool bare = p.occupied() == (pawns | p.pieces(rules::king));
  const int reach = w.endgame_reach[0] + w.endgame_reach[1] * rules::count(pawns) +
                    (both ? w.endgame_reach[2] : 0) + (bare ? w.endgame_reach[3] : 0);
  if (endgame == 0) return 0;
  return endgame > 0 ? std::max(reach, -endgame) : -std::max(reach, endgame);
}

// From White's view, in 1/256 centipawns.
int judge(const Position& position, const Parameters& p, const PawnStructure& pawns) {
  Context c{position, p, pawns};
  prepare(c);
  Taper sum = sum_of_groups(c);
  if (position.side_to_move() == rules::white) {
    sum += p.w.tempo[0];
  } else {
    sum -= p.w.tempo[0];
  }
  sum += Taper(0, endgame_reach(position, p.w, sum.endgame()));
  const int phase = phase_of(position);
  const Color strong = sum.endgame() > 0 ? rules::white : rules::black;
  const int scale = endgame_scale(position, strong);
  const int endgame = sum.endgame() * scale / full_scale;
  // Without pawns there is no middlegame left, however many queens there are.
  const bool is_bare = position.pieces(rules::pawn) == 0;
  const int middlegame = is_bare ? sum.middlegame() * scale / full_scale : sum.middlegame();
  return middlegame * phase + endgame * (phase_total - phase);
}

}  // namespace

Score sum_of_terms(const Position& position, PawnTable& table) {
  return judge(position, parameters, table.find(position, parameters)) / phase_total;
}

int sum_of_terms_fine(const Position& position, const Parameters& p) {
  PawnStructure pawns = study_pawns(position, p);
  study_cover(position, p.w, pawns);
  return judge(position, p, pawns);
}

}  // namespace kairos::search
