#include "kairos/habits/rate_count.hpp"

#include <algorithm>
#include <cmath>

#include "kairos/study/expectation.hpp"

namespace kairos::habits {

namespace {

constexpr double centipawns = 100;
constexpr search::Score most = 1000;  // mates and won endings count as ten pawns

// One side's decisions in one game.
struct Sums {
  double decisions = 0, loss = 0, blunders = 0, errors = 0, best = 0;
};

void add_decision(Sums& sums, const study::Note& note, rules::Move played, const RateRule& rule) {
  const search::Score best = note.lines.front().score;
  const search::Score reached = std::min(note.played_score, best);
  if (std::abs(best) > rule.decided && std::abs(reached) > rule.decided) return;
  const search::Score loss = std::clamp(best, -most, most) - std::clamp(reached, -most, most);
  const double cost = study::expectation(best) - study::expectation(reached);
  ++sums.decisions;
  sums.loss += loss / centipawns;
  sums.blunders += loss > rule.blunder ? 1 : 0;
  sums.errors += cost >= rule.error_cost ? 1 : 0;
  sums.best += played == note.lines.front().moves.front() ? 1 : 0;
}

}  // namespace

void MeanByGame::add_game(double decisions, double sum) {
  ++games_;
  n_ += decisions;
  x_ += sum;
  nn_ += decisions * decisions;
  nx_ += decisions * sum;
  xx_ += sum * sum;
}

double MeanByGame::mean() const {
  return n_ > 0 ? x_ / n_ : 0;
}

double MeanByGame::margin() const {
  if (games_ < 2) return 0;
  constexpr double z = 1.96;  // of the normal distribution, 95 %
  const double r = mean();
  const double squares = std::max(0.0, xx_ - 2 * r * nx_ + r * r * nn_);
  return z * std::sqrt(squares * games_ / (games_ - 1)) / n_;
}

void RateCount::add(const study::Study& study) {
  if (!seen_.insert(study::identity_of(study)).second) return;
  add_side(study, rules::white);
  add_side(study, rules::black);
}

void RateCount::add_side(const study::Study& study, rules::Color side) {
  Sums sums;
  rules::Position position = study.start;
  for (std::size_t i = 0; i < study.moves.size(); ++i) {
    const bool counts = position.side_to_move() == side && study.notes[i].lines.size() >= 2 &&
                        position.fullmove_number() >= rule_.first_move;
    if (counts) add_decision(sums, study.notes[i], study.moves[i], rule_);
    position.play(study.moves[i]);
  }
  if (sums.decisions == 0) return;
  const std::string& name = side == rules::white ? study.facts.white : study.facts.black;
  PlayerRates& player = by_name_[name];
  player.name = name;
  ++player.games;
  player.decisions += static_cast<std::uint64_t>(sums.decisions);
  player.loss.add_game(sums.decisions, sums.loss);
  player.blunders.add_game(sums.decisions, sums.blunders);
  player.errors.add_game(sums.decisions, sums.errors);
  player.best.add_game(sums.decisions, sums.best);
}

std::vector<PlayerRates> RateCount::listed(std::uint64_t least_games) const {
  std::vector<PlayerRates> list;
  for (const auto& [name, player] : by_name_) {
    if (player.games >= least_games) list.push_back(player);
  }
  // The map is in the order of names, and a stable sort keeps it among equals.
  std::stable_sort(list.begin(), list.end(), [](const PlayerRates& a, const PlayerRates& b) {
    return a.loss.mean() < b.loss.mean();
  });
  return list;
}

}  // namespace kairos::habits
