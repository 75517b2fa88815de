#include "kairos/study/phase.hpp"

namespace kairos::study {

namespace {

constexpr int ending_points = 26;
constexpr int opening_moves = 10;

}  // namespace

Phase phase_of(const rules::Position& position) {
  using rules::PieceType;
  const auto count = [&position](PieceType type) { return rules::count(position.pieces(type)); };
  const int points = 9 * count(PieceType::queen) + 5 * count(PieceType::rook) +
                     3 * (count(PieceType::bishop) + count(PieceType::knight));
  if (points <= ending_points) return Phase::ending;
  return position.fullmove_number() <= opening_moves ? Phase::opening : Phase::middlegame;
}

}  // namespace kairos::study
