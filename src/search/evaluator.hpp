// The one door to the evaluation: what a position is worth before any search.
//
// An Evaluator goes along with the search: `reset` at the root, `push` for each move played, null
// moves too, `pop` when it is taken back. `evaluate` speaks of the position at the end of that
// line. The positions on the line are not copied: each must stay where it is until it is popped.
// What is kept for a ply may be made from the ply before and the few men that have moved since; the
// score is the same whatever the way there. One Evaluator a searcher; nothing is shared.
#pragma once

#include <array>
#include <cstdint>
#include <memory>

#include "kairos/rules/position.hpp"
#include "kairos/search/score.hpp"

#include "index.hpp"

namespace kairos::search {

// How sure a score is.
enum class Certainty : std::uint8_t {
  estimate,  // what searches find in positions like this one may correct it
  known,     // a draw, or an ending of few men: better than what is learnt on the way
  exact,     // the outcome itself: nothing that a search finds can change who wins
};

struct Evaluation {
  Score score = 0;  // centipawns from the side to move, within +-max_evaluation
  Certainty certainty = Certainty::estimate;

  [[nodiscard]] bool is_known_draw() const {
    return certainty != Certainty::estimate && score == draw_score;
  }
};

// An exact win scores this much or more.
inline constexpr Score least_exact_win = 1250;

class Network;

class Evaluator {
 public:
  Evaluator();
  ~Evaluator();
  Evaluator(const Evaluator&) = delete;
  Evaluator& operator=(const Evaluator&) = delete;

  void reset(const rules::Position& root) {
    ply_ = 0;
    line_[0] = &root;
  }
  void reset(const rules::Position&&) = delete;  // it would be gone at once
  void push(const rules::Position& next) { line_[index(++ply_)] = &next; }
  void push(const rules::Position&&) = delete;
  void pop() { --ply_; }

  // Of the position at the end of the line. Of one in check it means little.
  [[nodiscard]] Evaluation evaluate();
  // The same once more, where its score was kept from an earlier visit.
  [[nodiscard]] Evaluation evaluated(Score score) const;

 private:
  [[nodiscard]] const rules::Position& position() const { return *line_[index(ply_)]; }

  std::array<const rules::Position*, max_ply> line_{};
  int ply_ = 0;
  std::unique_ptr<Network> network_;
};

}  // namespace kairos::search
