// A question: a position that may make a puzzle, with what must be known of the game around it.
//
// One moment may ask two questions: what should have been played, and how the move that was played
// is punished. They are tried in this order. A trap asks how the move that was avoided is refuted.
#pragma once

#include <vector>

#include "kairos/study/scoresheet.hpp"

namespace kairos::puzzle {

struct Question {
  rules::Position position = rules::Position::start();
  std::vector<rules::Key> earlier;                    // keys of the positions before it
  rules::Position before = rules::Position::start();  // one ply earlier, and
  rules::Move last;                                   // the move from there; "no move" if none
  rules::Move own_last;                               // the move before it, of the solver
  rules::Move played;                                 // in the game; "no move" if none
  int ply = 0;
  bool is_why_not = false;  // `last` was avoided, and `before` is the position at `ply`
};

// Plays a move in the question's position.
void play(Question& question, rules::Move move);

std::vector<Question> questions_of(const study::Scoresheet& sheet, const study::Moment& moment);

}  // namespace kairos::puzzle
