#include "kairos/habits/collect.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "kairos/habits/chances.hpp"

namespace kairos::habits {

namespace {

constexpr std::size_t most_puzzles = 10;  // of a habit

bool is_one_of(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

std::optional<rules::Color> side_of(const study::GameFacts& facts,
                                    const std::vector<std::string>& names) {
  const bool white = is_one_of(names, facts.white);
  if (white == is_one_of(names, facts.black)) return std::nullopt;
  return white ? rules::white : rules::black;
}

bool Collector::is_new(const study::Study& study) {
  return seen_.insert(study::identity_of(study)).second;
}

std::size_t Collector::number_of(const Source& source) {
  const auto known = std::ranges::find(sources_, &source);
  const auto number = static_cast<std::size_t>(known - sources_.begin());
  if (known == sources_.end()) sources_.push_back(&source);
  return number;
}

std::uint32_t Collector::number_game(GameIndex index) {
  indices_.push_back(index);
  return static_cast<std::uint32_t>(indices_.size() - 1);
}

void Collector::add(const Source& source, const std::vector<std::string>& names,
                    bool opponents_are_field) {
  const std::size_t number = number_of(source);
  for (std::size_t i = 0; i < source.size(); ++i) {
    if (is_full()) return;
    const study::Study study = source.load(i);
    const auto side = side_of(study.facts, names);
    if (!side || !is_new(study)) continue;
    const std::uint32_t game = number_game({number, i, study.facts.number});
    ++games_;
    add_decisions(study, *side, game, rule_, topics_, player_);
    if (opponents_are_field) add_decisions(study, ~*side, game, rule_, topics_, field_);
  }
}

void Collector::add_field(const Source& source) {
  const std::size_t number = number_of(source);
  for (std::size_t i = 0; i < source.size(); ++i) {
    if (is_full()) return;
    const study::Study study = source.load(i);
    const std::uint32_t game = number_game({number, i, study.facts.number});
    for (const rules::Color side : {rules::white, rules::black}) {
      add_decisions(study, side, game, rule_, topics_, field_);
    }
  }
}

bool Collector::is_full() const {
  return std::max(player_.size(), field_.size()) >= most_decisions;
}

void Collector::show_examples(std::vector<Habit>& list) const {
  for (Habit& habit : list) {
    for (Example& example : habit.examples) {
      const GameIndex& index = indices_[example.place.game];
      const study::Study study = sources_[index.source]->load(index.game);
      const auto at = static_cast<std::size_t>(example.place.ply);
      example.position = study::position_after(study, at);
      example.played = study.moves[at];
      example.best = study.notes[at].lines.front().moves.front();
      for (const study::Moment& moment : study.moments) {
        if (moment.ply == example.place.ply && moment.kind == study::Kind::swing) {
          example.best = moment.best;
        }
      }
      example.game_label = study::label_of(study.facts);
    }
  }
}

// A puzzle belongs to a habit when the decision it was made from does, whoever made it.
void Collector::add_puzzles(Habit& habit, TopicId topic) {
  std::map<std::pair<std::size_t, std::uint64_t>, std::set<int>> plies;  // by source and game
  for (const auto* decisions : {&player_, &field_}) {
    for (const Decision& d : *decisions) {
      if (std::find(d.topics.begin(), d.topics.end(), topic) == d.topics.end()) continue;
      const GameIndex& index = indices_[d.place.game];
      plies[{index.source, index.number}].insert(d.place.ply);
    }
  }
  for (std::size_t source = 0; source < sources_.size(); ++source) {
    const std::vector<Source::PuzzlePlace> puzzles = sources_[source]->puzzle_places();
    for (std::size_t i = 0; i < puzzles.size(); ++i) {
      if (habit.puzzles.size() == most_puzzles) return;
      const auto game = plies.find({source, puzzles[i].game});
      if (game == plies.end() || !game->second.contains(puzzles[i].ply)) continue;
      habit.puzzles.push_back(puzzles[i].id);
      if (std::ranges::find(trained_, puzzles[i].position) != trained_.end()) continue;
      training_.push_back({source, i});
      trained_.push_back(puzzles[i].position);
    }
  }
}

Habits Collector::find(std::string player, std::string field) {
  return told(std::move(player), std::move(field), habits::find(player_, field_, topics_, games_));
}

Habits Collector::find_by_expectation(std::string player) {
  return told(std::move(player), "", habits::find_by_expectation(player_, topics_, games_));
}

Habits Collector::told(std::string player, std::string field, FoundHabits found) {
  Habits& h = found.habits;
  h.player = std::move(player);
  h.field = std::move(field);
  h.error_cost = rule_.error_cost;
  if (rule_.has_chances()) h.expectation = expectation_of(player_);
  show_examples(h.habits);
  for (std::size_t i = 0; i < h.habits.size(); ++i) add_puzzles(h.habits[i], found.habit_topics[i]);
  return std::move(found.habits);
}

}  // namespace kairos::habits
