// A move that somebody asks about, as a moment: what the study says of it had it been played.
//
// The moves are judged by whoever asks (search_move.hpp); here the one asked about is measured by
// the best of them, and the reasons are looked for that a moment of the game would be given: of a
// move that costs something what the reply does and what the best move does, of a good one what it
// does and why the next best is worse. Nothing is searched but the proofs. Pure.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/study/moment.hpp"
#include "kairos/study/search_move.hpp"

namespace kairos::study {

// Where a move is asked about.
struct AskedPlace {
  rules::Position position = rules::Position::start();
  std::span<const rules::Key> earlier;                // of the positions before it
  rules::Position before = rules::Position::start();  // one ply earlier, and
  rules::Move last;                                   // the move that led here; "no move": none
};

struct JudgedMove {
  rules::Move move;
  MoveVerdict verdict;
};

// Index of the best; of equal ones the first. At least one must be judged.
std::size_t best_of(std::span<const JudgedMove> judged);
// Whether the move costs less than can be told (even_cost), is not mated where the best is not, and
// where all is lost loses no man more.
bool is_as_good(const JudgedMove& move, const JudgedMove& best);

// `asked` first, then other moves of the place, each once, judged with the same `nodes`: the best
// and, where there is one, the next best among them. A move as good as the best makes a moment of
// kind only_move with it as `best`, whether it is the only one or not (the scores say); another a
// swing with it as `played`.
Moment moment_of_asked(const AskedPlace& place, std::span<const JudgedMove> judged,
                       std::uint64_t nodes);

}  // namespace kairos::study
