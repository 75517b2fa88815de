// How a game stands by the Laws: mate, stalemate, repetition, move counts and bare material.
//
// Articles of the FIDE Laws: 5.1.1 mate, 5.2.1 stalemate, 5.2.2 dead position, 9.2 threefold, 9.3
// fifty moves, 9.6 fivefold and seventy-five moves. Positions before are given by their keys,
// oldest first, without the present one; equal keys are taken as equal positions.
//
// Agreement, resignation, flag fall and claims are acts of players and not to be seen here, nor is
// a dead position that only its pawn walls make dead.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include "kairos/rules/position.hpp"

namespace kairos::rules {

enum class GameStatus : std::uint8_t {
  open,
  checkmate,
  stalemate,
  bare_material,
  fivefold,
  seventy_five_moves,
  threefold,    // by claim
  fifty_moves,  // by claim
};

std::string_view words(GameStatus s);

bool is_checkmate(const Position& p);
bool is_stalemate(const Position& p);
// Dead by material alone: K v K, one minor piece, or bishops all on one colour of squares.
bool is_bare_material(const Position& p);
// How often the present position has stood on the board, this time included.
int occurrences(const Position& p, std::span<const Key> earlier);
// The first that applies, in the order of the enumeration (mate first).
GameStatus game_status(const Position& p, std::span<const Key> earlier);

}  // namespace kairos::rules
