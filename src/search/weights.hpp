// Every number of the evaluation that may be fitted, in one struct.
//
// The first values came from trade values (1 3 3 5 9) and plain reasoning; the present ones were
// fitted by scripts/fit_weights, which rewrites the lines between the two marks (data, method and
// hold-out error: DEVELOPERS.md). A `Taper` is (middlegame, endgame) in centipawns; a plain int is
// in units of danger (king_safety.cpp). Signs are from the view of the side that owns the man.
#pragma once

#include <array>

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
  Tapers<6> material{{{85, 108}, {296, 327}, {308, 336}, {435, 543}, {958, 1009}, {0, 0}}};
  Tapers<4> pawn_file{{{-3, -1}, {-6, -2}, {1, -1}, {6, -2}}};
  Tapers<8> pawn_rank{{{0, 0}, {-4, 6}, {-3, -4}, {0, -3}, {8, 0}, {15, 21}, {27, 35}, {0, 0}}};
  Tapers<4> knight_file{{{-13, -8}, {-7, 4}, {-2, 6}, {-2, 14}}};
  Tapers<8> knight_rank{{{-27, -17}, {-13, -10}, {-6, 0}, {5, 19}, {9, 15}, {17, 4}, {14, 3}, {-24, -15}}};
  Tapers<4> bishop_file{{{-6, -2}, {-4, 4}, {-6, 4}, {-3, 8}}};
  Tapers<8> bishop_rank{{{-9, -4}, {0, -6}, {-1, 4}, {3, 4}, {2, 7}, {4, 0}, {-12, 7}, {-12, -4}}};
  Tapers<4> rook_file{{{-18, 5}, {-11, 5}, {-7, 3}, {-5, -1}}};
  Tapers<8> rook_rank{{{-12, -10}, {-20, -5}, {-13, -4}, {-15, 10}, {-1, 14}, {5, 10}, {8, 7}, {9, 11}}};
  Tapers<4> queen_file{{{-2, -8}, {0, 3}, {0, 5}, {-1, 9}}};
  Tapers<8> queen_rank{{{-9, -25}, {1, -14}, {0, 3}, {-2, 15}, {5, 14}, {5, 19}, {-2, 9}, {11, 11}}};
  Tapers<4> king_file{{{12, -20}, {15, -1}, {-7, 9}, {-13, 10}}};
  Tapers<8> king_rank{{{20, -39}, {0, -18}, {-21, -2}, {-43, 14}, {-52, 23}, {-53, 30}, {-52, 18}, {-55, -11}}};
  Tapers<32> pawn_square{{{0, 0}, {0, 0}, {0, 0}, {0, 0}, {1, -2}, {3, -6}, {1, 3}, {-5, 9}, {0, -2}, {5, -1}, {-4, 3}, {-1, 6}, {-2, 4}, {-2, 2}, {3, -3}, {2, -6}, {4, 0}, {-1, 7}, {-3, -5}, {0, -8}, {0, -1}, {-7, -1}, {1, -2}, {4, 2}, {-2, 0}, {0, -2}, {1, 1}, {0, 0}, {0, 0}, {0, 0}, {0, 0}, {0, 0}}};
  Tapers<32> knight_square{{{0, -3}, {3, 2}, {-5, 0}, {-1, 6}, {4, 4}, {-3, -2}, {0, 1}, {-3, -4}, {-2, 1}, {2, 2}, {-1, -7}, {-3, 3}, {3, 7}, {-2, 4}, {0, -1}, {-7, -2}, {7, 3}, {-6, -1}, {-4, 1}, {-4, 0}, {-1, 0}, {-2, -1}, {-1, 1}, {4, -1}, {-1, 2}, {2, 1}, {4, -1}, {3, 2}, {-5, -3}, {1, 2}, {0, 4}, {1, 2}}};
  Tapers<32> bishop_square{{{-1, -1}, {9, 2}, {-3, 3}, {-4, 0}, {0, 2}, {-4, -2}, {9, -4}, {-7, 3}, {1, 1}, {7, 3}, {-9, -3}, {-2, 0}, {0, -2}, {-6, 0}, {2, 2}, {2, 1}, {-5, 0}, {-2, 3}, {0, -3}, {4, 1}, {4, 0}, {-4, 0}, {-4, -2}, {3, 0}, {0, 5}, {-7, -3}, {-3, 4}, {2, -1}, {0, -1}, {1, 2}, {1, 3}, {-3, -3}}};
  Tapers<32> rook_square{{{1, 0}, {-2, -2}, {-5, 1}, {0, -2}, {-3, 1}, {-4, 4}, {-1, 0}, {-1, -3}, {-3, 1}, {1, 2}, {-2, -2}, {-2, 0}, {-1, 0}, {0, 3}, {-3, 2}, {-5, 2}, {-1, 0}, {1, 1}, {1, 2}, {-2, 1}, {-5, 0}, {-4, -1}, {4, 1}, {3, 1}, {1, 3}, {-1, -6}, {-2, -1}, {-4, 0}, {0, -2}, {1, 1}, {1, 1}, {-1, 3}}};
  Tapers<32> queen_square{{{2, 4}, {-1, 0}, {-5, -2}, {0, -10}, {-8, 1}, {1, 0}, {0, 2}, {2, -8}, {1, 0}, {2, 4}, {-2, -3}, {-5, 2}, {1, 2}, {2, 1}, {0, -2}, {-4, 4}, {5, -1}, {-3, -1}, {5, 1}, {-5, 0}, {-6, -1}, {4, 1}, {-2, 1}, {3, 5}, {-1, -1}, {-6, -1}, {1, 1}, {3, 2}, {4, 1}, {0, 0}, {1, 1}, {3, 3}}};
  Tapers<32> king_square{{{-2, -5}, {-1, 1}, {-3, -1}, {5, -5}, {3, 1}, {0, -1}, {-2, -1}, {-3, -3}, {1, 2}, {-1, -5}, {3, -1}, {-1, -1}, {-2, 0}, {-1, -2}, {-1, -3}, {0, 2}, {1, 1}, {-2, -2}, {0, 0}, {-1, 2}, {1, 3}, {2, 6}, {0, 2}, {-1, -2}, {0, 0}, {2, 3}, {1, 3}, {0, 3}, {0, -2}, {0, 2}, {0, 2}, {0, 0}}};
  Tapers<9> knight_mobility{{{-24, -34}, {-17, -36}, {-10, -12}, {-7, -2}, {-4, 9}, {1, 12}, {3, 19}, {9, 17}, {20, 16}}};
  Tapers<14> bishop_mobility{{{-17, -34}, {-13, -30}, {-3, -14}, {4, -4}, {5, 7}, {8, 11}, {10, 18}, {9, 22}, {15, 25}, {14, 24}, {23, 27}, {25, 23}, {31, 28}, {34, 30}}};
  Tapers<15> rook_mobility{{{-35, -60}, {-14, -32}, {-3, -13}, {-4, -8}, {-4, 6}, {-3, 14}, {-2, 20}, {1, 23}, {3, 28}, {3, 33}, {3, 35}, {7, 34}, {5, 42}, {14, 40}, {20, 43}}};
  Tapers<14> queen_mobility{{{-17, -40}, {-10, -28}, {-5, -14}, {-2, -9}, {-1, 3}, {-2, 15}, {3, 14}, {9, 19}, {8, 24}, {11, 28}, {14, 32}, {11, 30}, {13, 34}, {14, 36}}};
  Tapers<1> bishop_pair{{{19, 48}}};
  Tapers<1> knight_per_pawn{{{1, 2}}};
  Tapers<1> rook_per_pawn{{{-10, -6}}};
  Tapers<1> rook_open_file{{{21, 7}}};
  Tapers<1> rook_half_open_file{{{11, -1}}};
  Tapers<1> rook_trapped{{{-10, -10}}};
  Tapers<1> rook_behind_passer{{{4, 23}}};
  Tapers<2> knight_outpost{{{10, 4}, {16, 9}}};
  Tapers<1> bishop_outpost{{{18, 7}}};
  Tapers<1> minor_behind_pawn{{{7, 9}}};
  Tapers<1> bishop_own_pawns{{{-6, -4}}};
  Tapers<1> bishop_long_diagonal{{{14, 9}}};
  Tapers<2> minor_from_king{{{-2, -1}, {0, -1}}};
  Tapers<1> queen_on_xray{{{-13, -4}}};
  Tapers<1> isolated{{{-7, -6}}};
  Tapers<1> isolated_on_open_file{{{-13, -10}}};
  Tapers<1> doubled{{{-6, -18}}};
  Tapers<1> backward{{{-2, -10}}};
  Tapers<1> backward_on_open_file{{{-13, -2}}};
  Tapers<8> supported{{{0, 0}, {0, 0}, {10, 10}, {7, 12}, {12, 14}, {24, 32}, {52, 52}, {0, 0}}};
  Tapers<8> phalanx{{{0, 0}, {4, 1}, {4, 7}, {5, 11}, {12, 20}, {38, 43}, {60, 70}, {0, 0}}};
  Tapers<8> candidate{{{0, 0}, {1, -1}, {-5, 4}, {2, 8}, {5, 19}, {21, 39}, {0, 0}, {0, 0}}};
  Tapers<8> passed{{{0, 0}, {4, 11}, {2, 13}, {-4, 34}, {26, 55}, {60, 83}, {109, 149}, {0, 0}}};
  Tapers<8> passed_blocked{{{0, 0}, {-3, -6}, {1, -2}, {-2, -3}, {-6, -14}, {-19, -29}, {-49, -79}, {0, 0}}};
  Tapers<8> passed_free{{{0, 0}, {0, 5}, {5, 10}, {-1, 17}, {11, 30}, {20, 46}, {27, 80}, {0, 0}}};
  Tapers<1> passed_supported{{{5, -4}}};
  Tapers<8> passed_own_king{{{0, 0}, {-1, -2}, {4, 0}, {6, -9}, {1, -11}, {-4, -14}, {-3, -16}, {0, 0}}};
  Tapers<8> passed_enemy_king{{{0, 0}, {-3, 4}, {-8, 4}, {-7, 11}, {-6, 18}, {-1, 26}, {7, 30}, {0, 0}}};
  Tapers<1> passed_from_edge{{{-2, -3}}};
  Tapers<1> passed_unstoppable{{{0, 395}}};
  Tapers<6> pawn_threat{{{0, 0}, {47, 35}, {42, 43}, {65, 44}, {47, 35}, {0, 0}}};
  Tapers<6> minor_threat{{{3, 16}, {14, 31}, {26, 24}, {34, 18}, {33, 29}, {0, 0}}};
  Tapers<6> rook_threat{{{4, 18}, {15, 14}, {17, 11}, {0, 12}, {42, 24}, {0, 0}}};
  Tapers<1> king_threat{{{15, 22}}};
  Tapers<1> hanging{{{11, 15}}};
  Tapers<1> pawn_push_threat{{{11, 13}}};
  Tapers<1> knight_hits_queen{{{5, 0}}};
  Tapers<1> slider_hits_queen{{{8, 0}}};
  Tapers<1> restricted{{{2, 0}}};
  Tapers<1> space{{{1, 1}}};
  Tapers<1> tempo{{{17, 12}}};
  Tapers<7> shelter{{{-9, 4}, {13, -4}, {6, -6}, {3, -3}, {-3, 0}, {-7, 7}, {-12, 1}}};
  Tapers<7> shelter_own_file{{{-11, 1}, {10, 1}, {8, -3}, {2, -1}, {-4, 0}, {-8, 0}, {-6, 2}}};
  Tapers<7> storm{{{0, 0}, {-7, 2}, {-18, 12}, {-12, 1}, {-4, -3}, {4, -7}, {-2, -6}}};
  Tapers<7> storm_blocked{{{0, 0}, {0, 0}, {-13, -11}, {-1, -15}, {5, -11}, {7, -7}, {5, 6}}};
  Tapers<1> king_open_file{{{-8, -11}}};
  Tapers<1> king_pawn_distance{{{2, -8}}};
  Units<6> danger_attacker{{0, 17, 10, 11, 0, 0}};
  Units<1> danger_ring_attack{{0}};
  Units<1> danger_weak_ring{{9}};
  Units<6> danger_safe_check{{0, 36, 14, 24, 32, 0}};
  Units<1> danger_unsafe_check{{5}};
  Units<1> danger_no_queen{{-81}};
  Units<1> danger_pinned{{-2}};
  Units<1> danger_shelter{{32}};
  Units<1> danger_flank_attack{{8}};
  Units<1> danger_flank_pressed{{7}};
  Units<1> danger_flank_guard{{3}};
  Units<1> danger_knight_near{{12}};
  Units<1> danger_base{{-6}};
  Units<4> endgame_reach{{-3, 0, 14, 16}};
  // </weights>
  // clang-format on
};

inline constexpr Weights weights{};

// Calls f(name, array) for each weight, in the order above.
template <typename W, typename F>
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
  f("pawn_square", w.pawn_square);
  f("knight_square", w.knight_square);
  f("bishop_square", w.bishop_square);
  f("rook_square", w.rook_square);
  f("queen_square", w.queen_square);
  f("king_square", w.king_square);
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
