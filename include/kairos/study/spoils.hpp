// Spoils: what a move wins by force, proved and put into words.
//
// Mates are proved by the mate prover, material by search over material alone with all replies
// tried (settled.hpp). The material must stand at two depths, and the searcher's score must bear it
// out: the proof ends at a horizon, the searcher sees past it. Where one of them does not hold,
// nothing is claimed. Words name men as players do: "a knight", "the exchange", "the queen for a
// rook", "two pawns". Deterministic, needs no searcher.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

namespace kairos::study {

struct Spoils {
  int mate_moves = 0;             // proved: mate in exactly so many moves by this move
  search::Score gain = 0;         // proved material in centipawns; 0: no claim
  std::string what;               // the men won, in words; empty when there is no claim
  std::vector<rules::Move> line;  // that shows it, from the move on
  std::uint64_t nodes = 0;
};

// `score` is the searcher's word on the move: a mate score is tried to be proved a mate, any other
// must be in keeping with the material claimed. Material is counted from `since`, the position
// before the exchange that `move` answers, so that taking back what was taken is no gain; by
// default from `position` itself.
Spoils spoils_of(const rules::Position& position, rules::Move move, search::Score score,
                 const rules::Position* since = nullptr);

// The material part alone: gain, words and line.
Spoils material_of(const rules::Position& position, rules::Move move, search::Score score,
                   const rules::Position* since = nullptr);

// The difference in men between two positions in words, as won by `side`; empty when `side` has won
// nothing.
std::string men_won(const rules::Position& from, const rules::Position& to, rules::Color side);

// "a pawn", "the queen", "" for no piece.
std::string with_article(rules::PieceType t);
std::string_view name_of(rules::PieceType t);

}  // namespace kairos::study
