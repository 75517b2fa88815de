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
  Tapers<6> material{{{87, 113}, {312, 306}, {328, 324}, {475, 529}, {961, 1002}, {0, 0}}};
  Tapers<4> pawn_file{{{-4, 2}, {-4, 1}, {1, 1}, {7, -3}}};
  Tapers<8> pawn_rank{{{0, 0}, {-2, -1}, {-4, -6}, {-1, 0}, {7, 7}, {17, 21}, {28, 36}, {0, 0}}};
  Tapers<4> knight_file{{{-18, -17}, {-2, -3}, {5, 5}, {7, 11}}};
  Tapers<8> knight_rank{{{-24, -20}, {-11, -9}, {-2, 1}, {11, 10}, {16, 12}, {17, 7}, {5, -3}, {-20, -20}}};
  Tapers<4> bishop_file{{{-5, -6}, {2, -1}, {2, 2}, {3, 7}}};
  Tapers<8> bishop_rank{{{-9, -8}, {1, -4}, {2, 2}, {5, 5}, {6, 6}, {5, 3}, {-4, 1}, {-10, -6}}};
  Tapers<4> rook_file{{{-6, 1}, {-1, 2}, {0, 0}, {6, -4}}};
  Tapers<8> rook_rank{{{-6, -7}, {-11, -8}, {-7, -4}, {-6, 2}, {1, 9}, {7, 9}, {15, 11}, {8, 8}}};
  Tapers<4> queen_file{{{-3, -13}, {0, -2}, {1, 6}, {2, 10}}};
  Tapers<8> queen_rank{{{-6, -17}, {5, -9}, {3, 1}, {0, 9}, {3, 13}, {5, 13}, {1, 8}, {2, 5}}};
  Tapers<4> king_file{{{10, -20}, {15, -3}, {-6, 8}, {-12, 14}}};
  Tapers<8> king_rank{{{20, -29}, {0, -14}, {-22, 3}, {-39, 17}, {-50, 22}, {-55, 22}, {-55, 9}, {-55, -12}}};
  Tapers<9> knight_mobility{{{-37, -49}, {-23, -30}, {-8, -14}, {-4, -3}, {1, 5}, {7, 11}, {11, 15}, {16, 17}, {22, 16}}};
  Tapers<14> bishop_mobility{{{-34, -49}, {-19, -30}, {-7, -14}, {2, -4}, {7, 4}, {10, 10}, {13, 17}, {18, 21}, {22, 24}, {25, 26}, {27, 28}, {30, 30}, {33, 31}, {36, 32}}};
  Tapers<15> rook_mobility{{{-30, -60}, {-20, -36}, {-4, -17}, {-5, -6}, {-4, 4}, {-4, 12}, {0, 18}, {3, 23}, {8, 28}, {8, 32}, {11, 34}, {13, 37}, {16, 40}, {18, 42}, {20, 43}}};
  Tapers<14> queen_mobility{{{-20, -40}, {-10, -26}, {-6, -14}, {-1, -6}, {1, 2}, {2, 9}, {6, 14}, {8, 18}, {9, 22}, {10, 26}, {11, 29}, {12, 32}, {13, 34}, {14, 36}}};
  Tapers<1> bishop_pair{{{27, 47}}};
  Tapers<1> knight_per_pawn{{{-1, 0}}};
  Tapers<1> rook_per_pawn{{{-7, -3}}};
  Tapers<1> rook_open_file{{{25, 7}}};
  Tapers<1> rook_half_open_file{{{12, 5}}};
  Tapers<1> rook_trapped{{{-21, -7}}};
  Tapers<1> rook_behind_passer{{{5, 16}}};
  Tapers<2> knight_outpost{{{14, 9}, {27, 16}}};
  Tapers<1> bishop_outpost{{{19, 11}}};
  Tapers<1> minor_behind_pawn{{{9, 6}}};
  Tapers<1> bishop_own_pawns{{{-6, -5}}};
  Tapers<1> bishop_long_diagonal{{{15, 4}}};
  Tapers<1> queen_on_xray{{{-18, -6}}};
  Tapers<1> isolated{{{-9, -9}}};
  Tapers<1> isolated_on_open_file{{{-12, -3}}};
  Tapers<1> doubled{{{-8, -19}}};
  Tapers<1> backward{{{-4, -8}}};
  Tapers<1> backward_on_open_file{{{-13, -3}}};
  Tapers<8> supported{{{0, 0}, {0, 0}, {11, 7}, {8, 9}, {13, 12}, {29, 30}, {50, 50}, {0, 0}}};
  Tapers<8> phalanx{{{0, 0}, {4, 1}, {6, 4}, {9, 9}, {22, 22}, {40, 44}, {60, 70}, {0, 0}}};
  Tapers<8> candidate{{{0, 0}, {1, 4}, {1, 5}, {7, 11}, {12, 22}, {24, 40}, {0, 0}, {0, 0}}};
  Tapers<8> passed{{{0, 0}, {2, 10}, {1, 13}, {4, 29}, {24, 51}, {60, 90}, {110, 150}, {0, 0}}};
  Tapers<8> passed_blocked{{{0, 0}, {0, -4}, {0, -6}, {-4, -13}, {-13, -25}, {-27, -48}, {-50, -90}, {0, 0}}};
  Tapers<8> passed_free{{{0, 0}, {0, 2}, {0, 4}, {2, 9}, {7, 21}, {14, 44}, {26, 80}, {0, 0}}};
  Tapers<1> passed_supported{{{5, 7}}};
  Tapers<8> passed_own_king{{{0, 0}, {-2, 0}, {-2, -2}, {-1, -5}, {-1, -8}, {-1, -10}, {0, -11}, {0, 0}}};
  Tapers<8> passed_enemy_king{{{0, 0}, {-1, 2}, {-1, 3}, {-1, 7}, {-1, 13}, {1, 20}, {2, 23}, {0, 0}}};
  Tapers<1> passed_unstoppable{{{0, 400}}};
  Tapers<6> pawn_threat{{{0, 0}, {49, 40}, {46, 44}, {70, 50}, {66, 40}, {0, 0}}};
  Tapers<6> minor_threat{{{4, 17}, {23, 22}, {27, 27}, {46, 29}, {40, 30}, {0, 0}}};
  Tapers<6> rook_threat{{{5, 17}, {19, 22}, {19, 23}, {5, 16}, {46, 26}, {0, 0}}};
  Tapers<1> king_threat{{{12, 39}}};
  Tapers<1> hanging{{{22, 18}}};
  Tapers<1> pawn_push_threat{{{16, 12}}};
  Tapers<1> restricted{{{3, 0}}};
  Tapers<1> space{{{2, -2}}};
  Tapers<1> tempo{{{21, 15}}};
  Tapers<7> shelter{{{-12, 4}, {17, -2}, {10, -3}, {4, -3}, {-2, 2}, {-7, 1}, {-12, 0}}};
  Tapers<7> shelter_own_file{{{-12, 1}, {8, -1}, {7, 0}, {2, 0}, {-5, 0}, {-4, 0}, {-4, 0}}};
  Tapers<7> storm{{{0, 0}, {-10, 0}, {-24, 1}, {-17, -1}, {-8, 0}, {2, -2}, {-4, -2}}};
  Tapers<7> storm_blocked{{{0, 0}, {0, 0}, {-15, -6}, {-6, -5}, {2, -3}, {2, 1}, {1, 1}}};
  Tapers<1> king_open_file{{{-17, 0}}};
  Tapers<1> king_pawn_distance{{{1, -8}}};
  Units<6> danger_attacker{{0, 18, 13, 14, 13, 0}};
  Units<1> danger_ring_attack{{3}};
  Units<1> danger_weak_ring{{12}};
  Units<6> danger_safe_check{{0, 42, 25, 40, 38, 0}};
  Units<1> danger_unsafe_check{{6}};
  Units<1> danger_no_queen{{-80}};
  Units<1> danger_pinned{{5}};
  Units<1> danger_shelter{{25}};
  Units<1> danger_base{{-21}};
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
  f("passed_unstoppable", w.passed_unstoppable);
  f("pawn_threat", w.pawn_threat);
  f("minor_threat", w.minor_threat);
  f("rook_threat", w.rook_threat);
  f("king_threat", w.king_threat);
  f("hanging", w.hanging);
  f("pawn_push_threat", w.pawn_push_threat);
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
  f("danger_base", w.danger_base);
}

}  // namespace kairos::search
