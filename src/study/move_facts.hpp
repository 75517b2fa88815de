// What the reasons of one move are read from: the move, best play from it, and the move before.
#pragma once

#include <span>
#include <vector>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"
#include "kairos/study/reason.hpp"

namespace kairos::study {

struct MoveFacts {
  Role role = Role::best;
  // The position before the move that this one answers, and that move; "no move" where there is
  // none. For a reply it is the move in question.
  rules::Position before = rules::Position::start();
  rules::Move last;
  rules::Position position = rules::Position::start();  // in which `move` is made
  std::vector<rules::Move> line;                        // best play, first the move itself
  search::Score score = 0;                              // of the side that makes it
  std::span<const rules::Key> earlier;                  // of the positions before the moment
  // Of a best move: the one made, or that would be, in its place, and best play after it.
  std::vector<rules::Move> other{};

  [[nodiscard]] rules::Move move() const { return line.front(); }
  [[nodiscard]] rules::Color side() const { return position.side_to_move(); }
  // Whether the move takes back what the move before took.
  [[nodiscard]] bool takes_back() const;
  // The balance of that side; what the move before has taken is still to be answered for.
  [[nodiscard]] search::Score material() const;
  // Of that kind, with role and move; the rest is for whoever found it.
  [[nodiscard]] Reason reason(ReasonKind kind) const;
};

}  // namespace kairos::study
