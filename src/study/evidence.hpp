// The close look: all that the verify pass knows of one ply, gathered once and read by every kind
// of moment.
//
// Nothing is taken on the word of one search. The best move, the second best and the move played
// are each searched again from the position after them; of the two scores the one that speaks
// against a moment counts (the lower for the best move, the higher for the others). Scores are
// centipawns from the side to move.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "kairos/search/searcher.hpp"
#include "kairos/study/scoresheet.hpp"
#include "kairos/study/search_move.hpp"
#include "kairos/study/settings.hpp"

namespace kairos::study {

struct Evidence {
  int ply = 0;
  rules::Position position = rules::Position::start();
  std::span<const rules::Key> earlier;                // of the positions before it, in the sheet
  rules::Position before = rules::Position::start();  // the position one ply earlier, and
  rules::Move last;                                   // the move that led here; "no move" at ply 0
  rules::Move played;                                 // "no move" after the last move

  search::Verdict verdict;  // of the position, two lines; no line when the game is over
  rules::Move best;
  rules::Move second;  // "no move" when there is one legal move
  search::Score best_score = 0;
  search::Score second_score = 0;  // best_score when there is one legal move
  search::Score played_score = 0;
  std::vector<rules::Move> line;               // best play, from `best`
  std::vector<rules::Move> refutation;         // best play after the move played
  std::vector<rules::Move> second_refutation;  // after the second best; empty when not looked at
  int legal_moves = 0;
  std::uint64_t effort = 0;  // of the last look: nodes for a search of the position
  std::uint64_t nodes = 0;   // of all

  [[nodiscard]] double best_expectation() const;
  [[nodiscard]] double gap() const;   // best minus second best, in expectation; may be negative
  [[nodiscard]] double cost() const;  // best minus played, likewise
  [[nodiscard]] bool erred_by(double least) const;  // a move was played that costs so much
  // Whether the iteration before the last names the same best move and puts at least `gap` between
  // it and the second; a forced mate needs no such witness.
  [[nodiscard]] bool held_before(double gap) const;
};

// A look at a ply. `next` is the evidence of the ply after it, or null: where that was looked at
// with enough effort, it tells what the move played is worth, so that two neighbours agree. The
// searcher is not cleared here; sheet and neighbour must outlive the looker, the sheet the evidence
// too.
class Looker {
 public:
  Looker(const Scoresheet& sheet, const Settings& settings, search::Searcher& searcher)
      : sheet_(sheet), settings_(settings), searcher_(searcher) {}

  // With a part of the verify effort: enough to tell where there is nothing.
  [[nodiscard]] Evidence first_look(int ply, const Evidence* next) const;
  // With the verify effort.
  void look_closer(Evidence& evidence, const Evidence* next) const;
  // With several times the effort of the look before.
  void look_deeper(Evidence& evidence, const Evidence* next) const;

 private:
  const Scoresheet& sheet_;
  const Settings& settings_;
  search::Searcher& searcher_;
};

// A moment of that kind with everything filled that the evidence says, the reasons excepted.
Moment moment_of(const Evidence& evidence, Kind kind);

}  // namespace kairos::study
