#include "kairos/batch/schedule.hpp"

#include <algorithm>
#include <tuple>

namespace kairos::batch {

bool is_open_to_moments(const Ledger& ledger, const InputGame& game, const Focus& focus, int ply) {
  if (ply < game.shared_plies) return false;
  const rules::Color first = ledger.first_side(game.key);
  return focus.holds(game, ply % 2 == 0 ? first : ~first, ply == ledger.length(game.key));
}

namespace {

std::tuple<double, std::size_t, int> place_of(double promise, std::size_t game, int ply) {
  return {-promise, game, ply};
}

}  // namespace

bool comes_before(const Task& a, const Task& b) {
  return place_of(a.candidate.promise, a.game, a.candidate.ply) <
         place_of(b.candidate.promise, b.game, b.candidate.ply);
}

bool Schedule::LessPromising::operator()(const Waiting& a, const Waiting& b) const {
  return place_of(b.promise, b.game, b.ply) < place_of(a.promise, a.game, a.ply);
}

Schedule::Schedule(const Input& input, const Ledger& ledger, const Focus& focus)
    : input_(input), ledger_(ledger), focus_(focus) {
  for (std::size_t i = 0; i < input.games.size(); ++i) {
    if (!ledger.header().part.holds(i) || !focus.holds(input.games[i])) continue;
    ++counts_.games;
    if (ledger.has_survey(input.games[i].key)) {
      ++counts_.surveyed;
      add_candidates(i);
    } else {
      surveys_.push_back(i);
    }
  }
}

void Schedule::add_candidates(std::size_t game) {
  const InputGame& facts = input_.games[game];
  const std::vector<int> done = ledger_.plies(facts.key);
  for (const study::Candidate& candidate : ledger_.candidates(facts.key)) {
    if (!is_open_to_moments(ledger_, facts, focus_, candidate.ply)) continue;
    ++counts_.candidates;
    if (std::binary_search(done.begin(), done.end(), candidate.ply)) {
      ++counts_.verified;
    } else {
      candidates_.push({candidate.promise, static_cast<std::uint32_t>(game), candidate.ply});
    }
  }
}

std::optional<Task> Schedule::next() {
  if (next_survey_ < surveys_.size()) {
    ++surveys_under_way_;
    return Task{Task::What::survey, surveys_[next_survey_++], {}};
  }
  if (candidates_.empty() || surveys_under_way_ > 0) return std::nullopt;
  const Waiting first = candidates_.top();
  candidates_.pop();
  return Task{Task::What::verify, first.game, {first.ply, first.promise}};
}

void Schedule::finish(const Task& task) {
  if (task.what == Task::What::verify) {
    ++counts_.verified;
    return;
  }
  --surveys_under_way_;
  ++counts_.surveyed;
  add_candidates(task.game);
}

}  // namespace kairos::batch
