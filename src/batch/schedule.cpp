#include "kairos/batch/schedule.hpp"

#include <algorithm>
#include <tuple>

namespace kairos::batch {

bool is_open_to_moments(const Ledger& ledger, const InputGame& game, const Focus& focus, int ply) {
  if (ply < game.shared_plies) return false;
  const rules::Color first = ledger.first_side(game.key);
  return focus.holds(game, ply % 2 == 0 ? first : ~first, ply == ledger.length(game.key));
}

std::tuple<double, std::size_t, int> order_of(std::size_t game, const study::Stretch& stretch) {
  return {-stretch.promise, game, stretch.plies.front()};
}

bool Schedule::LessPromising::operator()(const Waiting& a, const Waiting& b) const {
  const auto order = [](const Waiting& w) { return std::tuple(-w.promise, w.game, w.ply); };
  return order(b) < order(a);
}

Schedule::Schedule(const Input& input, const Ledger& ledger, const Focus& focus)
    : input_(input), ledger_(ledger), focus_(focus) {
  for (std::size_t i = 0; i < input.games.size(); ++i) {
    if (!ledger.header().part.holds(i) || !focus.holds(input.games[i])) continue;
    ++counts_.games;
    if (ledger.has_survey(input.games[i].key)) {
      ++counts_.surveyed;
      add_stretches(i);
    } else {
      surveys_.push_back(i);
    }
  }
}

Schedule::Places Schedule::places_of(std::size_t game, const study::Stretch& stretch) const {
  const InputGame& facts = input_.games[game];
  const std::vector<int> done = ledger_.plies(facts.key);
  Places places;
  for (const int ply : stretch.plies) {
    if (!is_open_to_moments(ledger_, facts, focus_, ply)) continue;
    ++places.open;
    if (std::ranges::binary_search(done, ply)) ++places.done;
  }
  return places;
}

void Schedule::add_stretches(std::size_t game) {
  for (const auto& stretch : study::stretches(ledger_.candidates(input_.games[game].key))) {
    const Places places = places_of(game, stretch);
    counts_.candidates += places.open;
    counts_.verified += places.done;
    if (places.done == places.open) continue;
    waiting_.push({stretch.promise, static_cast<std::uint32_t>(game), stretch.plies.front()});
  }
}

std::optional<Task> Schedule::next() {
  if (next_survey_ < surveys_.size()) {
    ++surveys_under_way_;
    return Task{Task::What::survey, surveys_[next_survey_++]};
  }
  if (waiting_.empty() || surveys_under_way_ > 0) return std::nullopt;
  const Waiting first = waiting_.top();
  waiting_.pop();
  for (auto& stretch : study::stretches(ledger_.candidates(input_.games[first.game].key))) {
    if (stretch.plies.front() != first.ply) continue;
    const Places places = places_of(first.game, stretch);
    return Task{Task::What::verify, first.game, std::move(stretch), places.open - places.done};
  }
  return std::nullopt;  // never: candidates do not change once there
}

void Schedule::finish(const Task& task) {
  if (task.what == Task::What::verify) {
    counts_.verified += task.places;
    return;
  }
  --surveys_under_way_;
  ++counts_.surveyed;
  add_stretches(task.game);
}

}  // namespace kairos::batch
