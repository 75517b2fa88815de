// An exercise as it is asked of one person: the question, hints, the solution, and what is said of
// an answer.
//
// Plain text; none but the rows of the question have line ends. Pure.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "kairos/puzzle/exercise.hpp"
#include "kairos/study/weighed.hpp"

namespace kairos::report {

// The board, who is to move, and how hard it is; between empty rows. Of a why-not the board is that
// of the game, before the move, seen from the side that answers it.
std::string question_text(const puzzle::Puzzle& puzzle);
// From general to particular; the aim only where the file tells it, and the question does not.
std::vector<std::string> hints_of(const puzzle::Exercise& exercise);
// All that could not be told before the answer: "solution", "try", "from" and their texts.
struct LabelledRow {
  std::string label;
  std::string text;
};
std::vector<LabelledRow> solution_rows(const puzzle::Exercise& exercise);
// How far a person's own moves, of several given, are those of the solution: a sentence with a
// blank in front, or "".
std::string followed_text(std::span<const rules::Move> given,
                          std::span<const rules::Move> solution);
// Of a move that is no key and cannot be told to be worse by a search of so many nodes.
std::string praise_text(const puzzle::Puzzle& puzzle, const study::Weighed& weighed,
                        std::uint64_t nodes);

}  // namespace kairos::report
