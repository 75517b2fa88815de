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
  Tapers<6> material{{{90, 110}, {310, 300}, {325, 320}, {480, 530}, {960, 1000}, {0, 0}}};
  Tapers<4> pawn_file{{{-4, 4}, {-2, 0}, {2, -2}, {8, -4}}};
  Tapers<8> pawn_rank{{{0, 0}, {-4, -6}, {-2, -4}, {2, 0}, {8, 8}, {16, 20}, {28, 36}, {0, 0}}};
  Tapers<4> knight_file{{{-24, -20}, {-6, -6}, {8, 6}, {12, 10}}};
  Tapers<8> knight_rank{{{-26, -20}, {-10, -8}, {0, 0}, {10, 8}, {16, 10}, {16, 6}, {4, -4}, {-20, -20}}};
  Tapers<4> bishop_file{{{-8, -8}, {0, -2}, {2, 2}, {4, 6}}};
  Tapers<8> bishop_rank{{{-12, -8}, {2, -2}, {4, 2}, {4, 4}, {6, 4}, {4, 2}, {-4, 0}, {-10, -6}}};
  Tapers<4> rook_file{{{-6, 0}, {-2, 0}, {4, 0}, {8, 0}}};
  Tapers<8> rook_rank{{{-4, -4}, {-8, -6}, {-6, -2}, {-4, 2}, {0, 6}, {6, 8}, {14, 10}, {8, 8}}};
  Tapers<4> queen_file{{{-6, -14}, {-2, -4}, {2, 6}, {4, 12}}};
  Tapers<8> queen_rank{{{-4, -16}, {2, -8}, {2, 0}, {2, 8}, {2, 12}, {4, 12}, {2, 8}, {2, 4}}};
  Tapers<4> king_file{{{14, -20}, {18, -4}, {-6, 8}, {-18, 14}}};
  Tapers<8> king_rank{{{20, -26}, {2, -10}, {-22, 4}, {-40, 14}, {-50, 20}, {-55, 20}, {-55, 8}, {-55, -12}}};
  Tapers<9> knight_mobility{{{-40, -50}, {-26, -30}, {-10, -14}, {-4, -4}, {2, 4}, {8, 10}, {14, 14}, {18, 16}, {22, 16}}};
  Tapers<14> bishop_mobility{{{-36, -50}, {-22, -30}, {-8, -14}, {-2, -4}, {6, 4}, {12, 10}, {16, 16}, {20, 20}, {23, 24}, {25, 26}, {27, 28}, {30, 30}, {33, 31}, {36, 32}}};
  Tapers<15> rook_mobility{{{-30, -60}, {-20, -36}, {-10, -18}, {-6, -6}, {-4, 4}, {-2, 12}, {2, 18}, {6, 24}, {8, 28}, {10, 32}, {12, 35}, {14, 38}, {16, 40}, {18, 42}, {20, 43}}};
  Tapers<14> queen_mobility{{{-20, -40}, {-12, -26}, {-6, -14}, {-2, -6}, {1, 2}, {4, 8}, {6, 14}, {8, 18}, {9, 22}, {10, 26}, {11, 29}, {12, 32}, {13, 34}, {14, 36}}};
  Tapers<1> bishop_pair{{{24, 44}}};
  Tapers<1> knight_per_pawn{{{2, 3}}};
  Tapers<1> rook_per_pawn{{{-3, -1}}};
  Tapers<1> rook_open_file{{{28, 8}}};
  Tapers<1> rook_half_open_file{{{12, 6}}};
  Tapers<1> rook_trapped{{{-34, -8}}};
  Tapers<1> rook_behind_passer{{{4, 14}}};
  Tapers<2> knight_outpost{{{14, 8}, {30, 18}}};
  Tapers<1> bishop_outpost{{{18, 10}}};
  Tapers<1> minor_behind_pawn{{{8, 2}}};
  Tapers<1> bishop_own_pawns{{{-3, -5}}};
  Tapers<1> bishop_long_diagonal{{{14, 4}}};
  Tapers<1> queen_on_xray{{{-20, -6}}};
  Tapers<1> isolated{{{-8, -10}}};
  Tapers<1> isolated_on_open_file{{{-10, -4}}};
  Tapers<1> doubled{{{-8, -18}}};
  Tapers<1> backward{{{-6, -8}}};
  Tapers<1> backward_on_open_file{{{-12, -4}}};
  Tapers<8> supported{{{0, 0}, {0, 0}, {10, 6}, {10, 8}, {16, 14}, {30, 30}, {50, 50}, {0, 0}}};
  Tapers<8> phalanx{{{0, 0}, {4, 2}, {8, 4}, {12, 10}, {24, 22}, {40, 44}, {60, 70}, {0, 0}}};
  Tapers<8> candidate{{{0, 0}, {2, 4}, {4, 6}, {8, 12}, {14, 22}, {24, 40}, {0, 0}, {0, 0}}};
  Tapers<8> passed{{{0, 0}, {2, 10}, {2, 14}, {4, 28}, {24, 50}, {60, 90}, {110, 150}, {0, 0}}};
  Tapers<8> passed_blocked{{{0, 0}, {0, -4}, {0, -6}, {-4, -14}, {-14, -26}, {-28, -50}, {-50, -90}, {0, 0}}};
  Tapers<8> passed_free{{{0, 0}, {0, 2}, {0, 4}, {2, 8}, {6, 20}, {14, 44}, {26, 80}, {0, 0}}};
  Tapers<1> passed_supported{{{6, 10}}};
  Tapers<8> passed_own_king{{{0, 0}, {0, 0}, {0, -1}, {0, -3}, {0, -6}, {0, -9}, {0, -11}, {0, 0}}};
  Tapers<8> passed_enemy_king{{{0, 0}, {0, 1}, {0, 2}, {0, 5}, {0, 10}, {0, 16}, {0, 20}, {0, 0}}};
  Tapers<1> passed_unstoppable{{{0, 400}}};
  Tapers<6> pawn_threat{{{0, 0}, {48, 40}, {46, 44}, {70, 50}, {66, 40}, {0, 0}}};
  Tapers<6> minor_threat{{{4, 16}, {22, 20}, {26, 26}, {46, 30}, {40, 30}, {0, 0}}};
  Tapers<6> rook_threat{{{2, 14}, {20, 24}, {20, 24}, {6, 16}, {46, 26}, {0, 0}}};
  Tapers<1> king_threat{{{12, 40}}};
  Tapers<1> hanging{{{30, 20}}};
  Tapers<1> pawn_push_threat{{{16, 12}}};
  Tapers<1> restricted{{{3, 3}}};
  Tapers<1> space{{{2, 0}}};
  Tapers<1> tempo{{{22, 16}}};
  Tapers<7> shelter{{{-22, 0}, {24, 0}, {16, 0}, {4, 0}, {-4, 0}, {-8, 0}, {-12, 0}}};
  Tapers<7> shelter_own_file{{{-12, 0}, {10, 0}, {6, 0}, {0, 0}, {-4, 0}, {-4, 0}, {-4, 0}}};
  Tapers<7> storm{{{0, 0}, {-10, 0}, {-24, 0}, {-16, 0}, {-6, 0}, {0, 0}, {0, 0}}};
  Tapers<7> storm_blocked{{{0, 0}, {0, 0}, {-14, -6}, {-4, -2}, {0, 0}, {0, 0}, {0, 0}}};
  Tapers<1> king_open_file{{{-24, 0}}};
  Tapers<1> king_pawn_distance{{{0, -6}}};
  Units<6> danger_attacker{{0, 14, 12, 16, 18, 0}};
  Units<1> danger_ring_attack{{8}};
  Units<1> danger_weak_ring{{12}};
  Units<6> danger_safe_check{{0, 42, 30, 46, 44, 0}};
  Units<1> danger_unsafe_check{{6}};
  Units<1> danger_no_queen{{-80}};
  Units<1> danger_pinned{{8}};
  Units<1> danger_shelter{{24}};
  Units<1> danger_base{{-20}};
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
