// Weighs one move of a position against the best, with the proof of what it does by force
// (forced.hpp). What is said of the outcome, report words (report/words.hpp). Scores are centipawns
// from the side that makes the move. Pure function.
#pragma once

#include "kairos/study/search_move.hpp"
#include "kairos/study/weighed.hpp"

namespace kairos::study {

// `best_score` is that of the best move, searched with as much effort: `nodes`, which the proof
// follows (proof_nodes).
Weighed weigh(const rules::Position& position, rules::Move move, const MoveVerdict& verdict,
              search::Score best_score, std::uint64_t nodes);

}  // namespace kairos::study
