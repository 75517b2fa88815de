// The hand-made terms of the evaluation; the door to it is evaluator.hpp.
//
// One evaluation builds a Context (attack maps and what follows from them) and adds up terms, each
// from the view of one side: what a file named after a group of terms returns is a Taper for
// `us`, and terms.cpp takes White's sum minus Black's. Parameters are the weights and the tables
// made from them; the fitting tool passes its own.
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "kairos/rules/attacks.hpp"
#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

#include "geometry.hpp"
#include "index.hpp"
#include "taper.hpp"
#include "weights.hpp"

namespace kairos::search {

// On which wings the kings stand, seen by one side: bit 0 its own king, bit 1 the enemy's; a set
// bit means files a to d.
constexpr int wings_count = 4;
inline int wings_of(const rules::Position& p, rules::Color us) {
  return ((p.pieces(us, rules::king) & left_wing) != 0 ? 1 : 0) +
         ((p.pieces(~us, rules::king) & left_wing) != 0 ? 2 : 0);
}

struct Parameters {
  Weights w;
  // Material and place of each kind of man by wings of the kings, squares from White's view.
  std::array<std::array<std::array<Taper, rules::square_count>, rules::piece_type_count>,
             wings_count>
      placed;
};

constexpr Parameters make_parameters(const Weights& w) {
  using Files = const Tapers<4>*;
  using Ranks = const Tapers<8>*;
  using Squares = const Tapers<64>*;
  const std::array<Files, 6> files = {&w.pawn_file, &w.knight_file, &w.bishop_file,
                                      &w.rook_file, &w.queen_file,  &w.king_file};
  const std::array<Ranks, 6> ranks = {&w.pawn_rank, &w.knight_rank, &w.bishop_rank,
                                      &w.rook_rank, &w.queen_rank,  &w.king_rank};
  const std::array<Squares, 6> own = {&w.pawn_own_wing, &w.knight_own_wing, &w.bishop_own_wing,
                                      &w.rook_own_wing, &w.queen_own_wing,  &w.king_own_wing};
  const std::array<Squares, 6> enemy = {&w.pawn_enemy_wing,   &w.knight_enemy_wing,
                                        &w.bishop_enemy_wing, &w.rook_enemy_wing,
                                        &w.queen_enemy_wing,  &w.king_enemy_wing};
  Parameters p{w, {}};
  for (std::size_t wings = 0; wings < wings_count; ++wings) {
    const std::size_t own_flip = (wings & 1) != 0 ? 7 : 0;
    const std::size_t enemy_flip = (wings & 2) != 0 ? 7 : 0;
    for (std::size_t type = 0; type < files.size(); ++type) {
      for (std::size_t s = 0; s < 64; ++s) {
        const std::size_t file = s % 8 < 4 ? s % 8 : 7 - s % 8;
        p.placed[wings][type][s] = w.material[type] + (*files[type])[file] + (*ranks[type])[s / 8] +
                                   (*own[type])[s ^ own_flip] + (*enemy[type])[s ^ enemy_flip];
      }
    }
  }
  return p;
}

inline constexpr Parameters parameters = make_parameters(weights);

// What the pawns are worth to a king on a given square.
struct Cover {
  rules::Square king = rules::no_square;
  Taper shelter;
  Taper near_pawns;  // for a king near its pawns
};

// What follows from the pawns alone, and from pawns and kings alone.
struct PawnStructure {
  std::array<rules::Bitboard, 2> pawns{};
  std::array<rules::Bitboard, 2> passed{};
  std::array<rules::Bitboard, 2> attacks{};
  std::array<rules::Bitboard, 2> attack_span{};  // squares they attack now or after advancing
  std::array<Cover, 2> cover{};                  // of the kings as they last stood
  std::array<int, 2> wings{};                    // of the kings, seen by each side
  Taper score;                                   // White minus Black, material and place included
};

PawnStructure study_pawns(const rules::Position& position, const Parameters& p);
// Brings the cover up to where the kings stand.
void study_cover(const rules::Position& position, const Weights& w, PawnStructure& pawns);

// Remembers pawn structures. Its contents never change a result: a structure is looked up by all
// its pawns and the wings of the kings, not by a key.
class PawnTable {
 public:
  PawnTable();
  const PawnStructure& find(const rules::Position& position, const Parameters& p);

 private:
  std::vector<PawnStructure> entries_;
};

struct Context {
  const rules::Position& position;
  const Parameters& p;
  const PawnStructure& pawns;

  // By colour, then by kind of man; `all` of a colour is any kind.
  std::array<std::array<rules::Bitboard, rules::piece_type_count>, 2> attacks{};
  std::array<rules::Bitboard, 2> all{};
  std::array<rules::Bitboard, 2> twice{};  // attacked by two men or more
  std::array<rules::Bitboard, 2> pinned{};
  std::array<rules::Bitboard, 2> mobility_area{};
  std::array<rules::Bitboard, 2> king_ring{};
  // Against the king of that colour, gathered while the attackers are looked at.
  std::array<int, 2> ring_attackers{};
  std::array<int, 2> danger{};
};

void prepare(Context& c);

// For each side its own code: what depends on the colour is settled by the compiler.
template <rules::Color us>
Taper judge_pieces(Context& c);  // all but queens; fills the attack maps
template <rules::Color us>
Taper judge_queens(Context& c);  // after both sides' other pieces
template <rules::Color us>
Taper judge_king(const Context& c);
template <rules::Color us>
Taper judge_threats(const Context& c);
template <rules::Color us>
Taper judge_passed(const Context& c);
template <rules::Color us>
Taper judge_space(const Context& c);

// What all terms come to, from White's view: in centipawns, and for the fitting tool, with its own
// parameters and no table, in 1/256 of them.
Score sum_of_terms(const rules::Position& position, PawnTable& table);
int sum_of_terms_fine(const rules::Position& position, const Parameters& p);

}  // namespace kairos::search
