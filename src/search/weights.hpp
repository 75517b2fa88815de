// Every number of the evaluation that may be fitted, in one struct.
//
// The first values came from trade values (1 3 3 5 9) and plain reasoning; the present ones were
// fitted by scripts/fit_weights, which rewrites the lines between the two marks (data, method and
// hold-out error: MEASURED.md). A `Taper` is (middlegame, endgame) in centipawns; a plain int is
// in units of danger (king_safety.cpp). Signs are from the view of the side that owns the man.
// `own_wing` and `enemy_wing` hold a place for each square from the man's side of the board, as
// seen when its own (the enemy's) king stands on files e to h; mirrored when it stands on a to d.
#pragma once

#include <array>
#include <string>

#include "taper.hpp"

namespace kairos::search {

template <int n>
using Tapers = std::array<Taper, n>;
template <int n>
using Units = std::array<int, n>;

// One line a weight: scripts/fit_weights finds them by name.
struct Weights {
  // clang-format off
  // <weights>
  Tapers<6> material{{{80, 102}, {293, 336}, {305, 344}, {415, 554}, {953, 1012}, {0, 0}}};
  Tapers<4> pawn_file{{{-8, -5}, {-5, -2}, {1, -1}, {4, -3}}};
  Tapers<8> pawn_rank{{{0, 0}, {-4, 9}, {-3, -3}, {-1, -5}, {7, -1}, {12, 17}, {27, 33}, {0, 0}}};
  Tapers<4> knight_file{{{-14, -6}, {-8, 5}, {-3, 8}, {-2, 18}}};
  Tapers<8> knight_rank{{{-26, -17}, {-13, -8}, {-7, 1}, {5, 16}, {9, 15}, {16, 5}, {13, 5}, {-25, -10}}};
  Tapers<4> bishop_file{{{-8, -1}, {-4, 4}, {-8, 7}, {-3, 10}}};
  Tapers<8> bishop_rank{{{-10, -5}, {-2, -6}, {-3, 4}, {3, 5}, {3, 7}, {4, 1}, {-9, 8}, {-13, 1}}};
  Tapers<4> rook_file{{{-23, 7}, {-15, 8}, {-13, 6}, {-10, 2}}};
  Tapers<8> rook_rank{{{-15, -10}, {-20, -7}, {-19, 0}, {-18, 13}, {-5, 15}, {4, 11}, {7, 8}, {6, 12}}};
  Tapers<4> queen_file{{{-1, -8}, {-3, 4}, {-1, 6}, {-2, 10}}};
  Tapers<8> queen_rank{{{-10, -27}, {0, -18}, {0, 3}, {-3, 14}, {2, 16}, {3, 21}, {0, 12}, {12, 14}}};
  Tapers<4> king_file{{{14, -19}, {16, -2}, {-7, 9}, {-16, 10}}};
  Tapers<8> king_rank{{{20, -41}, {1, -20}, {-20, -4}, {-43, 12}, {-54, 24}, {-54, 32}, {-51, 22}, {-55, -10}}};
  Tapers<64> pawn_own_wing{{{0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {-3, -2}, {-3, -4}, {-5, 2}, {-8, 7}, {-4, 13}, {8, 5}, {10, -8}, {5, -3}, {-2, -2}, {0, -2}, {-4, 0}, {-3, 6}, {-1, 9}, {-4, 5}, {11, -3}, {3, -1}, {-4, 5}, {-4, 1}, {1, -6}, {3, -8}, {3, -5}, {4, -2}, {-2, 4}, {0, 5}, {4, 1}, {-4, 4}, {-6, -8}, {0, -10}, {1, -8}, {-1, -2}, {1, 8}, {4, 3}, {-3, -2}, {-8, -1}, {-1, -8}, {2, -1}, {5, 0}, {1, 3}, {-5, 1}, {2, -1}, {-4, -3}, {0, -1}, {2, 0}, {0, -1}, {1, 2}, {3, 4}, {-1, 0}, {-4, -5}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}}};
  Tapers<64> pawn_enemy_wing{{{0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {1, 0}, {1, -1}, {0, -2}, {1, 1}, {-3, 1}, {1, 3}, {0, 1}, {-1, -2}, {1, 2}, {0, 0}, {-2, -2}, {0, 0}, {-1, 2}, {2, 1}, {1, -3}, {-1, -2}, {0, 6}, {-4, 5}, {-2, -1}, {2, 0}, {0, 0}, {1, -1}, {2, -4}, {-1, -3}, {1, 5}, {0, 3}, {-2, 1}, {-1, -1}, {1, -1}, {1, 0}, {0, -5}, {-1, -1}, {0, 3}, {1, 4}, {-2, 1}, {-3, -3}, {2, -2}, {0, -2}, {0, -3}, {-1, -4}, {-2, -2}, {1, 4}, {3, 3}, {0, 1}, {0, 0}, {1, -1}, {-1, -1}, {-2, -6}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}}};
  Tapers<64> knight_own_wing{{{0, -3}, {6, 0}, {-4, 2}, {-3, 8}, {1, 5}, {-6, 0}, {1, 0}, {0, -3}, {7, 6}, {-3, 0}, {-1, -3}, {-5, -5}, {-3, -1}, {1, 1}, {-1, 0}, {3, 3}, {0, 3}, {2, 1}, {-2, -7}, {-2, 1}, {-4, 3}, {-2, -6}, {4, 2}, {-4, 2}, {5, 5}, {-3, 3}, {-1, -1}, {-8, -2}, {-6, -2}, {0, -1}, {-2, 5}, {3, 7}, {10, 3}, {-8, -3}, {-6, 1}, {-4, -1}, {-5, 2}, {-1, 1}, {-6, 0}, {6, 3}, {-2, 0}, {-2, -2}, {-1, 2}, {5, -4}, {6, 0}, {-2, 2}, {-5, -1}, {1, 2}, {-2, 2}, {1, 1}, {4, -1}, {3, 2}, {3, 3}, {7, 0}, {3, 2}, {-3, 1}, {-8, -4}, {2, 4}, {0, 5}, {1, 3}, {2, 4}, {0, 4}, {2, 3}, {-7, -4}}};
  Tapers<64> knight_enemy_wing{{{1, 0}, {1, -2}, {-1, 2}, {-1, 3}, {1, -1}, {1, -1}, {0, -1}, {0, 0}, {-1, 1}, {2, 3}, {-2, -3}, {-1, 0}, {-2, 1}, {2, -2}, {0, 0}, {2, 1}, {-2, 1}, {0, -3}, {-1, 2}, {-2, 0}, {2, -2}, {-1, -1}, {2, 2}, {1, 2}, {-1, -1}, {-3, -1}, {-1, 0}, {0, -2}, {-1, 2}, {0, 0}, {2, 1}, {3, -2}, {3, 1}, {0, 0}, {-4, -1}, {0, 0}, {-2, 0}, {5, 2}, {-2, -1}, {-1, -2}, {-1, 1}, {0, 1}, {-2, 2}, {1, -4}, {2, 2}, {0, 0}, {-2, -2}, {3, 1}, {-3, 1}, {-1, 0}, {1, -1}, {1, 0}, {0, 1}, {2, 2}, {0, 0}, {0, -1}, {-1, 1}, {1, 3}, {1, 1}, {1, 2}, {1, 1}, {-1, -1}, {0, 0}, {-3, -2}}};
  Tapers<64> bishop_own_wing{{{4, -2}, {11, 3}, {-3, 2}, {-5, 2}, {-4, 0}, {-4, 3}, {6, 1}, {-3, -3}, {4, 3}, {-6, -1}, {11, -3}, {-9, 2}, {-6, 5}, {6, -1}, {-2, -8}, {-2, 2}, {-1, 0}, {9, 4}, {-9, -6}, {-2, 1}, {-4, 1}, {-10, -2}, {6, 4}, {3, 1}, {-1, -2}, {-6, 0}, {0, 2}, {2, -2}, {2, 2}, {2, 2}, {-6, 3}, {2, -1}, {-9, -1}, {-1, 2}, {1, -2}, {6, -1}, {3, 1}, {3, -1}, {-3, 4}, {-6, 0}, {3, 1}, {-3, 2}, {-6, -4}, {3, -2}, {5, 0}, {-3, -2}, {-2, 1}, {2, 1}, {2, 7}, {-8, -3}, {-3, 4}, {3, -1}, {3, -1}, {-3, 4}, {-8, -4}, {1, 6}, {-2, -1}, {1, 2}, {1, 5}, {-3, -1}, {-3, -2}, {1, 3}, {1, 2}, {1, -2}}};
  Tapers<64> bishop_enemy_wing{{{2, -1}, {4, 2}, {2, 0}, {0, 4}, {-1, -1}, {-3, -1}, {-5, -2}, {1, -1}, {2, 1}, {1, -3}, {3, 2}, {0, 1}, {-1, 0}, {-4, 2}, {-2, -3}, {0, 0}, {4, 1}, {3, 0}, {0, -1}, {-1, 2}, {-1, 0}, {0, -1}, {-2, 1}, {-4, -2}, {1, 2}, {1, 0}, {-1, -2}, {1, -1}, {-1, -1}, {-1, 2}, {-1, 2}, {0, -1}, {0, 1}, {-3, -2}, {3, 1}, {1, -2}, {0, 0}, {2, 1}, {2, 1}, {-4, -2}, {-5, 0}, {3, 3}, {-2, -1}, {-1, -3}, {2, 1}, {0, -1}, {1, 0}, {2, 2}, {1, 3}, {0, 1}, {1, 0}, {0, 0}, {1, 0}, {-1, 0}, {-2, -3}, {2, 0}, {-2, 0}, {1, 1}, {0, 3}, {-1, 1}, {1, 2}, {0, -1}, {-1, 0}, {1, 0}}};
  Tapers<64> rook_own_wing{{{2, 1}, {-1, -1}, {-3, 0}, {-2, -2}, {0, -1}, {-5, 3}, {-6, -1}, {0, -3}, {-3, -1}, {-5, 1}, {-3, 2}, {-2, -2}, {1, -3}, {2, 0}, {-3, 4}, {-5, 2}, {-2, 2}, {3, 2}, {-5, 0}, {-4, 0}, {-5, 2}, {-2, -1}, {-1, 3}, {-3, -1}, {-2, 0}, {-1, 3}, {-3, 1}, {-6, 1}, {-3, 4}, {-5, 4}, {2, 2}, {-2, 1}, {0, 1}, {0, 1}, {2, 1}, {-2, 2}, {-2, 1}, {0, 1}, {0, 1}, {-3, 0}, {-5, 2}, {-5, -1}, {3, 1}, {1, -2}, {6, 2}, {2, 0}, {-3, 0}, {-5, 1}, {1, 4}, {-2, -4}, {-2, 0}, {-3, 0}, {-4, 0}, {-3, -2}, {0, -4}, {0, 1}, {-1, 0}, {0, 0}, {0, 1}, {-3, 1}, {-1, 4}, {2, 2}, {2, 2}, {0, -3}}};
  Tapers<64> rook_enemy_wing{{{-1, 2}, {-1, 3}, {2, 2}, {-2, 3}, {0, -1}, {0, -2}, {-3, -1}, {2, -4}, {0, 1}, {1, 1}, {1, 4}, {1, 2}, {0, -1}, {-1, -3}, {0, -5}, {-2, -2}, {-1, 2}, {2, 3}, {-2, 4}, {-2, 4}, {-2, -2}, {-1, -1}, {-1, -3}, {2, -3}, {0, 1}, {0, 2}, {0, 2}, {-1, 3}, {1, -2}, {-2, -1}, {0, -2}, {-2, -1}, {1, 2}, {-1, 2}, {1, 0}, {2, 3}, {-3, -3}, {-2, -2}, {-1, -2}, {-1, -1}, {0, 2}, {0, 0}, {-1, 0}, {0, -1}, {1, 0}, {-1, -1}, {0, 1}, {0, 1}, {-2, 1}, {1, 2}, {1, 1}, {2, 2}, {-1, -1}, {-1, -2}, {0, 1}, {0, -2}, {0, 1}, {1, 0}, {0, 2}, {0, 1}, {-2, -2}, {-1, -1}, {0, 0}, {0, 1}}};
  Tapers<64> queen_own_wing{{{4, 4}, {-1, 1}, {-6, -1}, {3, -13}, {-3, -8}, {-5, -4}, {-4, -1}, {3, 4}, {-7, 3}, {0, 0}, {1, 1}, {-1, -5}, {4, -11}, {-1, -1}, {1, -1}, {-8, 1}, {1, -1}, {4, 4}, {-4, -1}, {-4, 1}, {-6, 1}, {-1, -3}, {2, 4}, {1, 0}, {0, 1}, {3, -1}, {1, -3}, {-4, 4}, {-4, 5}, {-2, -2}, {3, 3}, {0, 2}, {5, -1}, {-2, -1}, {2, 1}, {-6, 1}, {-3, 2}, {5, 1}, {-5, -1}, {5, -2}, {-7, -2}, {3, 1}, {-2, 2}, {3, 5}, {2, 5}, {-1, 2}, {3, 2}, {-6, -1}, {-3, -1}, {-8, -1}, {1, 2}, {4, 2}, {3, 2}, {2, 1}, {-5, -1}, {1, 0}, {2, 1}, {0, 0}, {2, 2}, {3, 3}, {3, 3}, {2, 1}, {1, 1}, {4, 2}}};
  Tapers<64> queen_enemy_wing{{{1, 0}, {0, 0}, {-1, 1}, {-3, 0}, {2, -1}, {0, -1}, {-3, -1}, {2, 1}, {-2, 0}, {-4, 1}, {-1, -1}, {1, 0}, {-2, 0}, {0, -3}, {3, -1}, {3, 1}, {0, 0}, {-2, -1}, {1, 1}, {-1, -2}, {1, 1}, {-2, 2}, {3, 1}, {-1, 0}, {-2, -1}, {0, -2}, {-2, -1}, {0, 2}, {0, -1}, {1, 0}, {2, 2}, {1, 0}, {1, 0}, {2, 1}, {1, 2}, {1, 2}, {0, 1}, {-4, -1}, {-3, 0}, {-2, -1}, {-2, -1}, {3, 1}, {2, 2}, {2, 1}, {-3, -1}, {0, 0}, {-4, -1}, {1, 0}, {-3, 0}, {-1, 0}, {1, 2}, {1, 0}, {0, 0}, {0, -1}, {0, 0}, {4, 2}, {-1, 0}, {1, 1}, {2, 2}, {0, 0}, {0, 0}, {0, 0}, {1, 0}, {0, 1}}};
  Tapers<64> king_own_wing{{{-2, -5}, {-1, 1}, {-3, -1}, {5, -5}, {3, -5}, {-4, -1}, {1, -2}, {-1, -4}, {3, 1}, {0, -1}, {-2, -1}, {-3, -3}, {-4, -3}, {0, -3}, {-2, -2}, {6, 1}, {1, 2}, {-1, -5}, {3, -1}, {-1, -1}, {-1, -1}, {1, -4}, {1, -6}, {2, 3}, {-2, 0}, {-1, -2}, {-1, -3}, {0, 2}, {0, 0}, {0, -4}, {-1, -3}, {-2, 2}, {1, 1}, {-2, -2}, {0, 0}, {-1, 2}, {-2, 1}, {0, 0}, {-3, -2}, {0, 3}, {1, 3}, {2, 6}, {0, 2}, {-1, -2}, {-2, -4}, {0, 3}, {1, 7}, {1, 5}, {0, 0}, {2, 3}, {1, 3}, {0, 3}, {0, 5}, {2, 6}, {3, 4}, {-1, -2}, {0, -2}, {0, 2}, {0, 2}, {0, 0}, {1, 3}, {0, 3}, {0, 4}, {-1, -6}}};
  Tapers<64> king_enemy_wing{{{-1, -1}, {2, -4}, {5, -2}, {-7, 1}, {4, -1}, {-6, 2}, {0, 1}, {2, 3}, {0, -1}, {-2, -2}, {0, -3}, {0, -1}, {-1, 1}, {2, 1}, {0, 2}, {3, 1}, {1, 0}, {1, -1}, {-1, -5}, {0, -1}, {1, 2}, {-2, 2}, {1, 0}, {0, 0}, {1, 3}, {0, 0}, {1, -1}, {-1, -2}, {1, 0}, {0, 0}, {0, -1}, {-1, -1}, {1, 4}, {0, 2}, {0, 1}, {0, 0}, {-1, -1}, {0, -1}, {-1, -2}, {-2, -2}, {0, 2}, {-1, 2}, {0, 1}, {0, 0}, {0, -2}, {0, 0}, {0, 0}, {0, -1}, {0, 0}, {0, 0}, {1, 3}, {0, 1}, {0, 1}, {0, 0}, {0, 1}, {-1, -2}, {0, 0}, {0, 1}, {0, 1}, {1, 1}, {0, 1}, {0, 1}, {0, 1}, {-1, -4}}};
  Tapers<9> knight_mobility{{{-20, -25}, {-16, -39}, {-10, -12}, {-6, -1}, {-4, 8}, {-1, 13}, {2, 18}, {7, 20}, {16, 15}}};
  Tapers<14> bishop_mobility{{{-13, -27}, {-8, -27}, {-1, -12}, {3, 1}, {5, 8}, {8, 12}, {9, 19}, {10, 21}, {13, 24}, {13, 23}, {18, 24}, {22, 21}, {29, 25}, {32, 25}}};
  Tapers<15> rook_mobility{{{-36, -59}, {-15, -28}, {-6, -10}, {-6, -3}, {-5, 7}, {-4, 14}, {-3, 20}, {-1, 23}, {2, 28}, {1, 31}, {2, 35}, {5, 37}, {6, 39}, {12, 40}, {19, 40}}};
  Tapers<14> queen_mobility{{{-13, -39}, {-10, -30}, {-6, -16}, {-3, -7}, {-2, 6}, {-1, 17}, {2, 17}, {5, 20}, {9, 25}, {9, 26}, {13, 30}, {11, 29}, {12, 33}, {14, 36}}};
  Tapers<1> bishop_pair{{{17, 52}}};
  Tapers<1> knight_per_pawn{{{1, 4}}};
  Tapers<1> rook_per_pawn{{{-7, -5}}};
  Tapers<1> rook_open_file{{{19, 5}}};
  Tapers<1> rook_half_open_file{{{10, -1}}};
  Tapers<1> rook_trapped{{{-5, -7}}};
  Tapers<1> rook_behind_passer{{{1, 28}}};
  Tapers<2> knight_outpost{{{13, 3}, {12, 6}}};
  Tapers<1> bishop_outpost{{{17, 6}}};
  Tapers<1> minor_behind_pawn{{{4, 12}}};
  Tapers<1> bishop_own_pawns{{{-4, -4}}};
  Tapers<1> bishop_long_diagonal{{{14, 12}}};
  Tapers<2> minor_from_king{{{-3, -2}, {-2, -1}}};
  Tapers<1> queen_on_xray{{{-11, -3}}};
  Tapers<1> isolated{{{-7, -5}}};
  Tapers<1> isolated_on_open_file{{{-9, -8}}};
  Tapers<1> doubled{{{-7, -16}}};
  Tapers<1> backward{{{-1, -9}}};
  Tapers<1> backward_on_open_file{{{-11, -2}}};
  Tapers<8> supported{{{0, 0}, {0, 0}, {9, 12}, {7, 12}, {12, 15}, {23, 34}, {52, 53}, {0, 0}}};
  Tapers<8> phalanx{{{0, 0}, {4, 1}, {4, 7}, {5, 9}, {9, 22}, {38, 44}, {60, 70}, {0, 0}}};
  Tapers<8> candidate{{{0, 0}, {1, -3}, {-3, 2}, {-1, 10}, {1, 17}, {16, 39}, {0, 0}, {0, 0}}};
  Tapers<8> passed{{{0, 0}, {8, 13}, {2, 18}, {-3, 43}, {25, 57}, {61, 82}, {109, 147}, {0, 0}}};
  Tapers<8> passed_blocked{{{0, 0}, {0, -3}, {4, 1}, {0, -1}, {-1, -6}, {-14, -19}, {-47, -68}, {0, 0}}};
  Tapers<8> passed_free{{{0, 0}, {-1, 7}, {3, 11}, {-2, 23}, {13, 33}, {26, 51}, {28, 79}, {0, 0}}};
  Tapers<1> passed_supported{{{4, -3}}};
  Tapers<8> passed_own_king{{{0, 0}, {-3, 0}, {4, -4}, {5, -10}, {0, -13}, {-5, -16}, {-6, -18}, {0, 0}}};
  Tapers<8> passed_enemy_king{{{0, 0}, {-1, 1}, {-6, 5}, {-5, 10}, {-6, 20}, {0, 27}, {8, 31}, {0, 0}}};
  Tapers<1> passed_from_edge{{{-2, -5}}};
  Tapers<1> passed_unstoppable{{{0, 389}}};
  Tapers<6> pawn_threat{{{0, 0}, {37, 31}, {35, 40}, {59, 36}, {39, 32}, {0, 0}}};
  Tapers<6> minor_threat{{{3, 15}, {11, 28}, {23, 22}, {30, 14}, {29, 27}, {0, 0}}};
  Tapers<6> rook_threat{{{3, 17}, {13, 14}, {16, 13}, {0, 10}, {39, 22}, {0, 0}}};
  Tapers<1> king_threat{{{17, 15}}};
  Tapers<1> hanging{{{8, 16}}};
  Tapers<1> pawn_push_threat{{{11, 12}}};
  Tapers<1> knight_hits_queen{{{5, 1}}};
  Tapers<1> slider_hits_queen{{{7, 2}}};
  Tapers<1> restricted{{{2, 0}}};
  Tapers<1> space{{{1, 2}}};
  Tapers<1> tempo{{{15, 13}}};
  Tapers<7> shelter{{{-6, 5}, {9, -4}, {5, -6}, {1, -3}, {-3, -1}, {-7, 5}, {-10, 4}}};
  Tapers<7> shelter_own_file{{{-9, 2}, {9, -1}, {8, -4}, {0, -1}, {-5, 0}, {-8, 2}, {-6, 3}}};
  Tapers<7> storm{{{0, 0}, {-2, 5}, {-14, 15}, {-7, -2}, {-1, -7}, {7, -8}, {1, -6}}};
  Tapers<7> storm_blocked{{{0, 0}, {0, 0}, {-11, -11}, {4, -18}, {7, -14}, {10, -12}, {9, 1}}};
  Tapers<1> king_open_file{{{-1, -16}}};
  Tapers<1> king_pawn_distance{{{3, -6}}};
  Units<6> danger_attacker{{0, 13, 9, 9, -3, 0}};
  Units<1> danger_ring_attack{{1}};
  Units<1> danger_weak_ring{{8}};
  Units<6> danger_safe_check{{0, 31, 12, 22, 25, 0}};
  Units<1> danger_unsafe_check{{4}};
  Units<1> danger_no_queen{{-65}};
  Units<1> danger_pinned{{-4}};
  Units<1> danger_shelter{{40}};
  Units<1> danger_flank_attack{{11}};
  Units<1> danger_flank_pressed{{7}};
  Units<1> danger_flank_guard{{5}};
  Units<1> danger_knight_near{{15}};
  Units<1> danger_base{{2}};
  Units<4> endgame_reach{{-26, 1, 27, 27}};
  // </weights>
  // clang-format on
};

inline constexpr Weights weights{};

// Eight hexadecimal digits that change with any of the numbers (kairos/search/evaluation.hpp).
std::string checksum_of(const Weights& all);

// Calls f(name, array) for each weight, in the order above (a data table).
template <typename W, typename F>
// NOLINTNEXTLINE(readability-function-size)
void visit_weights(W& w, F f) {
  f("material", w.material);
  f("pawn_file", w.pawn_file);
  f("pawn_rank", w.pawn_rank);
  f("knight_file", w.knight_file);
  f("knight_rank", w.knight_rank);
  f("bishop_file", w.bishop_file);
  f("bishop_rank", w.bishop_rank);
  f("rook_file", w.rook_file);
  f("rook_rank", w.rook_rank);
  f("queen_file", w.queen_file);
  f("queen_rank", w.queen_rank);
  f("king_file", w.king_file);
  f("king_rank", w.king_rank);
  f("pawn_own_wing", w.pawn_own_wing);
  f("pawn_enemy_wing", w.pawn_enemy_wing);
  f("knight_own_wing", w.knight_own_wing);
  f("knight_enemy_wing", w.knight_enemy_wing);
  f("bishop_own_wing", w.bishop_own_wing);
  f("bishop_enemy_wing", w.bishop_enemy_wing);
  f("rook_own_wing", w.rook_own_wing);
  f("rook_enemy_wing", w.rook_enemy_wing);
  f("queen_own_wing", w.queen_own_wing);
  f("queen_enemy_wing", w.queen_enemy_wing);
  f("king_own_wing", w.king_own_wing);
  f("king_enemy_wing", w.king_enemy_wing);
  f("knight_mobility", w.knight_mobility);
  f("bishop_mobility", w.bishop_mobility);
  f("rook_mobility", w.rook_mobility);
  f("queen_mobility", w.queen_mobility);
  f("bishop_pair", w.bishop_pair);
  f("knight_per_pawn", w.knight_per_pawn);
  f("rook_per_pawn", w.rook_per_pawn);
  f("rook_open_file", w.rook_open_file);
  f("rook_half_open_file", w.rook_half_open_file);
  f("rook_trapped", w.rook_trapped);
  f("rook_behind_passer", w.rook_behind_passer);
  f("knight_outpost", w.knight_outpost);
  f("bishop_outpost", w.bishop_outpost);
  f("minor_behind_pawn", w.minor_behind_pawn);
  f("bishop_own_pawns", w.bishop_own_pawns);
  f("bishop_long_diagonal", w.bishop_long_diagonal);
  f("minor_from_king", w.minor_from_king);
  f("queen_on_xray", w.queen_on_xray);
  f("isolated", w.isolated);
  f("isolated_on_open_file", w.isolated_on_open_file);
  f("doubled", w.doubled);
  f("backward", w.backward);
  f("backward_on_open_file", w.backward_on_open_file);
  f("supported", w.supported);
  f("phalanx", w.phalanx);
  f("candidate", w.candidate);
  f("passed", w.passed);
  f("passed_blocked", w.passed_blocked);
  f("passed_free", w.passed_free);
  f("passed_supported", w.passed_supported);
  f("passed_own_king", w.passed_own_king);
  f("passed_enemy_king", w.passed_enemy_king);
  f("passed_from_edge", w.passed_from_edge);
  f("passed_unstoppable", w.passed_unstoppable);
  f("pawn_threat", w.pawn_threat);
  f("minor_threat", w.minor_threat);
  f("rook_threat", w.rook_threat);
  f("king_threat", w.king_threat);
  f("hanging", w.hanging);
  f("pawn_push_threat", w.pawn_push_threat);
  f("knight_hits_queen", w.knight_hits_queen);
  f("slider_hits_queen", w.slider_hits_queen);
  f("restricted", w.restricted);
  f("space", w.space);
  f("tempo", w.tempo);
  f("shelter", w.shelter);
  f("shelter_own_file", w.shelter_own_file);
  f("storm", w.storm);
  f("storm_blocked", w.storm_blocked);
  f("king_open_file", w.king_open_file);
  f("king_pawn_distance", w.king_pawn_distance);
  f("danger_attacker", w.danger_attacker);
  f("danger_ring_attack", w.danger_ring_attack);
  f("danger_weak_ring", w.danger_weak_ring);
  f("danger_safe_check", w.danger_safe_check);
  f("danger_unsafe_check", w.danger_unsafe_check);
  f("danger_no_queen", w.danger_no_queen);
  f("danger_pinned", w.danger_pinned);
  f("danger_shelter", w.danger_shelter);
  f("danger_flank_attack", w.danger_flank_attack);
  f("danger_flank_pressed", w.danger_flank_pressed);
  f("danger_flank_guard", w.danger_flank_guard);
  f("danger_knight_near", w.danger_knight_near);
  f("danger_base", w.danger_base);
  f("endgame_reach", w.endgame_reach);
}

}  // namespace kairos::search
