// A question about a position, and what was found. Plain data, made by conversation.hpp and
// responder.hpp, worded by report/conversation.hpp. Scores are of the side to move, as in
// study/moment.hpp and study/weighed.hpp.
#pragma once

#include <cstdint>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/study/moment.hpp"
#include "kairos/study/weighed.hpp"

namespace kairos::audience {

struct Question {
  enum class Kind : std::uint8_t {
    moves,  // about `moves`, each for itself
    best,   // what is best
    all     // all legal moves in order
  };
  Kind kind = Kind::best;
  rules::Position position = rules::Position::start();  // the game is not over there
  std::vector<rules::Key> earlier{};                    // of the positions before it
  rules::Position before = rules::Position::start();    // one ply earlier, and
  rules::Move last{};                                   // the move that led here; "no move": none
  std::vector<rules::Move> moves{};                     // legal, each once

  friend bool operator==(const Question&, const Question&) = default;
};

struct Response {
  Question question{};
  // One a move asked about, or one of the best (study/asked.hpp); none of `all`.
  std::vector<study::Moment> moments{};
  std::vector<study::Weighed> ranked{};  // of `all`: the best first
};

}  // namespace kairos::audience
