#include "evaluator.hpp"

#include <algorithm>

#include "endings.hpp"
#include "terms.hpp"

// Known endings come first; of all other positions the hand-made terms are added up.

namespace kairos::search {

using rules::Position;

Evaluator::Evaluator() : pawn_table_(std::make_unique<PawnTable>()) {}
Evaluator::~Evaluator() = default;

Evaluation Evaluator::evaluate() {
  const Position& p = position();
  const auto known = known_ending(p);
  const Score white =
      std::clamp(known ? *known : sum_of_terms(p, *pawn_table_), -max_evaluation, max_evaluation);
  return evaluated(p.side_to_move() == rules::white ? white : -white);
}

// King and pawn against king is solved. Other endings of so few men come from rules that hold in
// most positions, and a score of exactly 0 is mostly a draw by lack of material.
Evaluation Evaluator::evaluated(Score score) const {
  constexpr int few_men = 5;
  const Position& p = position();
  const int men = rules::count(p.occupied());
  if (men == 3 && p.pieces(rules::pawn) != 0) return {score, Certainty::exact};
  const bool known = score == draw_score || men <= few_men;
  return {score, known ? Certainty::known : Certainty::estimate};
}

}  // namespace kairos::search
