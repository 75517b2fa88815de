#include "habits_study.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/pgn/same_game.hpp"

#include "log.hpp"
#include "summary.hpp"

namespace kairos::cli {

namespace {

constexpr std::size_t most_puzzles = 10;  // of a habit

bool is_one_of(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

bool HabitsStudy::is_new(const study::Study& study) {
  const study::GameFacts& facts = study.facts;
  return seen_.insert(pgn::identity_of(study.start, study.moves, facts.white, facts.black)).second;
}

void HabitsStudy::add(const LedgerCollection& ledger, const std::vector<std::string>& names,
                      bool opponents_are_field) {
  for (std::size_t i = 0; i < ledger.size(); ++i) {
    if (is_full()) return;
    const study::Study study = ledger.load(i);
    const bool white = is_one_of(names, study.facts.white);
    if (white == is_one_of(names, study.facts.black) || !is_new(study)) continue;
    const auto game = static_cast<std::uint32_t>(spots_.size());
    spots_.push_back({&ledger, i, study.facts.number});
    ++games_;
    const rules::Color side = white ? rules::white : rules::black;
    habits::add_decisions(study, side, game, settings_, topics_, player_);
    if (opponents_are_field) {
      habits::add_decisions(study, ~side, game, settings_, topics_, field_);
    }
  }
}

void HabitsStudy::add_field(const LedgerCollection& ledger) {
  for (std::size_t i = 0; i < ledger.size(); ++i) {
    if (is_full()) return;
    const study::Study study = ledger.load(i);
    const auto game = static_cast<std::uint32_t>(spots_.size());
    spots_.push_back({&ledger, i, study.facts.number});
    for (const rules::Color side : {rules::white, rules::black}) {
      habits::add_decisions(study, side, game, settings_, topics_, field_);
    }
  }
}

void HabitsStudy::show_examples(std::vector<habits::Habit>& list) const {
  for (habits::Habit& habit : list) {
    for (habits::Example& example : habit.examples) {
      const Spot& spot = spots_[example.place.game];
      const study::Study study = spot.ledger->load(spot.index);
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
void HabitsStudy::add_puzzles(habits::Habit& habit, habits::TopicId topic) {
  std::map<std::pair<const LedgerCollection*, std::uint64_t>, std::set<int>> plies;
  for (const auto* decisions : {&player_, &field_}) {
    for (const habits::Decision& d : *decisions) {
      if (std::find(d.topics.begin(), d.topics.end(), topic) == d.topics.end()) continue;
      const Spot& spot = spots_[d.place.game];
      plies[{spot.ledger, spot.number}].insert(d.place.ply);
    }
  }
  std::set<const LedgerCollection*> ledgers;
  for (const Spot& spot : spots_) {
    if (!ledgers.insert(spot.ledger).second) continue;
    for (const puzzle::Puzzle& puzzle : spot.ledger->puzzles()) {
      if (habit.puzzles.size() == most_puzzles) return;
      const auto game = plies.find({spot.ledger, puzzle.game});
      if (game == plies.end() || !game->second.contains(puzzle.ply)) continue;
      habit.puzzles.push_back(puzzle::id_of(puzzle));
      const bool known = std::any_of(training_.begin(), training_.end(), [&](const auto& other) {
        return other.position == puzzle.position;
      });
      if (!known) training_.push_back(puzzle);
    }
  }
}

habits::Habits habits_in(const LedgerCollection& ledger, const std::vector<std::string>& names) {
  HabitsStudy study({});
  study.add(ledger, names, true);
  return study.find(base::join(names, " / "), std::string(opponents_words));
}

bool HabitsStudy::is_full() const {
  return std::max(player_.size(), field_.size()) >= most_decisions;
}

habits::Habits HabitsStudy::find(std::string player, std::string field) {
  if (is_full()) {
    log_warning("habits are told by the first " + counted(games_, "game") + " of the player and " +
                base::grouped(field_.size()) + " decisions of the field: more change nothing");
  }
  habits::Findings found = habits::find(player_, field_, topics_, games_);
  habits::Habits& h = found.habits;
  h.player = std::move(player);
  h.field = std::move(field);
  h.error_cost = settings_.error_cost;
  show_examples(h.habits);
  for (std::size_t i = 0; i < h.habits.size(); ++i) {
    add_puzzles(h.habits[i], found.habit_topics[i]);
  }
  return std::move(found.habits);
}

}  // namespace kairos::cli
