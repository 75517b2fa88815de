#include "evaluator.hpp"

#include <algorithm>

#include "endings.hpp"
#include "network.hpp"

// Known endings come first; all other positions are judged by the network, what cannot be won
// counting for less.

namespace kairos::search {

using rules::Position;

Evaluator::Evaluator() : network_(std::make_unique<Network>()) {}
Evaluator::~Evaluator() = default;

Evaluation Evaluator::evaluate() {
  const Position& p = position();
  if (const auto known = known_ending(p)) {
    return evaluated(p.side_to_move() == rules::white ? *known : -*known);
  }
  const int full = network_->evaluate(p, ply_);
  const rules::Color strong = full > 0 ? p.side_to_move() : ~p.side_to_move();
  const int score = full * endgame_scale(p, strong) / full_scale;
  // 0 is said of draws that are known; what is estimated as level is a centipawn off.
  return evaluated(score == draw_score ? 1 : std::clamp(score, -max_evaluation, max_evaluation));
}

// King and pawn against king is solved. Other endings of so few men come from rules that hold in
// most positions, and a score of exactly 0 is a draw by lack of material.
Evaluation Evaluator::evaluated(Score score) const {
  constexpr int few_men = 5;
  const Position& p = position();
  const int men = rules::count(p.occupied());
  if (men == 3 && p.pieces(rules::pawn) != 0) return {score, Certainty::exact};
  const bool known = score == draw_score || men <= few_men;
  return {score, known ? Certainty::known : Certainty::estimate};
}

}  // namespace kairos::search
