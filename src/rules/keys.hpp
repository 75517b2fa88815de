// The random numbers whose exclusive-or is a position's key: one for each man on each square, for
// each set of castling rights, for each en passant target, and for Black to move.
//
// "Nothing" has the number 0 everywhere (no man, no rights, no target), so updates need no branch.
#pragma once

#include <array>

#include "kairos/rules/piece.hpp"
#include "kairos/rules/position.hpp"
#include "kairos/rules/setup.hpp"
#include "kairos/rules/square.hpp"

#include "random.hpp"

namespace kairos::rules {

struct Keys {
  std::array<std::array<Key, square_count>, 16> man{};  // by Piece; the row of no_piece is 0
  std::array<Key, all_castling + 1> castling{};
  std::array<Key, square_count + 1> en_passant{};  // up to and including no_square
  Key black_to_move = 0;
};

// Any seed does; two keys that meet by chance would show in tests/rules/position_test.cpp.
constexpr Keys make_keys() {
  RandomBits random(20240229);
  Keys keys;
  for (int p = white_pawn; p <= black_king; ++p) {
    if (p > white_king && p < black_pawn) continue;
    for (Key& key : keys.man[static_cast<std::size_t>(p)]) key = random.next();
  }
  for (std::size_t rights = 1; rights < keys.castling.size(); ++rights) {
    keys.castling[rights] = random.next();
  }
  for (int file = 0; file < 8; ++file) {
    keys.en_passant[square_at(file, 2)] = random.next();
    keys.en_passant[square_at(file, 5)] = random.next();
  }
  keys.black_to_move = random.next();
  return keys;
}

inline constexpr Keys keys = make_keys();

}  // namespace kairos::rules
