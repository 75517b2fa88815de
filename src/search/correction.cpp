#include "correction.hpp"

#include <algorithm>

namespace kairos::search {

using rules::Position;

namespace {

// Corrections are kept in 1/128 centipawns and stay below a pawn.
constexpr int grain = 128;
constexpr int limit = 64 * grain;

std::uint64_t mix(std::uint64_t sum, rules::Bitboard men) {
  sum = (sum ^ men) * 0x9E3779B97F4A7C15;  // the golden ratio's digits: odd, bits well spread
  return sum ^ (sum >> 29);
}

}  // namespace

CorrectionHistory::Places CorrectionHistory::places_of(const Position& p) {
  constexpr int shift = 64 - bits;
  Places places{};
  places[0] =
      mix(mix(0, p.pieces(rules::white, rules::pawn)), p.pieces(rules::black, rules::pawn)) >>
      shift;
  for (const rules::Color c : {rules::white, rules::black}) {
    std::uint64_t sum = mix(1, p.pieces(c, rules::knight));
    sum = mix(sum, p.pieces(c, rules::bishop));
    sum = mix(sum, p.pieces(c, rules::rook));
    sum = mix(sum, p.pieces(c, rules::queen));
    places[c + 1U] = mix(sum, p.pieces(c, rules::king)) >> shift;
  }
  return places;
}

Score CorrectionHistory::corrected(const Position& p, Evaluation evaluation) const {
  if (evaluation.certainty != Certainty::estimate) return evaluation.score;
  const Places places = places_of(p);
  const auto& kind = corrections_[p.side_to_move()];
  int sum = 0;
  for (std::size_t i = 0; i < kinds; ++i) sum += kind[i][places[i]];
  return std::clamp(evaluation.score + sum / grain, -max_evaluation, max_evaluation);
}

// All three values move toward taking up the error that is left after their sum.
void CorrectionHistory::learn(const Position& p, int depth, Score error) {
  const Places places = places_of(p);
  auto& kind = corrections_[p.side_to_move()];
  const int weight = std::min(depth + 1, 16);
  const int step = std::clamp(error, -200, 200) * grain * weight / 512;
  for (std::size_t i = 0; i < kinds; ++i) {
    std::int16_t& value = kind[i][places[i]];
    value = static_cast<std::int16_t>(std::clamp(value + step, -limit, limit));
  }
}

}  // namespace kairos::search
