#include "kairos/habits/decisions.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"

#include "calibration.hpp"
#include "situation.hpp"

namespace kairos::habits {

namespace {

int year_of(const study::Study& study) {
  return static_cast<int>(base::to_integer(study.facts.date.substr(0, 4)).value_or(0));
}

const study::Moment* swing_at(const study::Study& study, int ply) {
  for (const study::Moment& moment : study.moments) {
    if (moment.ply == ply && moment.kind == study::Kind::swing) return &moment;
  }
  return nullptr;
}

Decision decision_of(const Situation& s, const DecisionRule& settings, Topics& topics) {
  Decision decision;
  const auto add = [&](const std::string& words, TopicKind kind) {
    decision.topics.push_back(topics.id_of(words, kind));
  };
  decision.place.ply = s.ply;
  const study::Moment* const moment = swing_at(s.study, s.ply);
  const double by_survey = std::max(0.0, s.best() - s.after());
  decision.verified = moment != nullptr;
  decision.cost = moment != nullptr ? moment->cost() : by_survey;
  decision.error = by_survey >= settings.error_cost;
  decision.chances = s.note(s.ply).error_chances;
  decision.rating = study::elo_of(s.study.facts, s.position.side_to_move());
  decision.log_odds = by_gap() * gap_of(s) + by_effort(s.note(s.ply).nodes);
  for (const std::string& words : contexts_of(s)) {
    add(words, TopicKind::circumstance);
    decision.log_odds += log_odds_of(words).value_or(0);
  }
  if (!decision.error) return decision;
  for (const Flaw& flaw : flaws_of(s)) {
    std::optional<TopicId> among;
    if (!flaw.among.empty()) among = topics.id_of(flaw.among, TopicKind::circumstance);
    decision.topics.push_back(topics.id_of(flaw.words, TopicKind::flaw, among));
  }
  if (const auto motif = moment != nullptr ? study::motif_of(*moment) : std::nullopt) {
    add("allowing the motif: " + std::string(study::name_of(*motif)), TopicKind::motif);
  }
  return decision;
}

}  // namespace

int starting_seconds(const study::Study& study, rules::Color side) {
  int most = -1;
  const std::size_t first = study.start.side_to_move() == side ? 0 : 1;
  for (std::size_t i = first; i < study.moves.size(); i += 2) {
    most = std::max(most, study.notes[i].clock_seconds);
  }
  return most;
}

TopicId Topics::id_of(const std::string& words, TopicKind kind, std::optional<TopicId> among) {
  const auto [at, is_new] = ids_.try_emplace(words, static_cast<TopicId>(all_.size()));
  if (is_new) all_.push_back({words, kind, among});
  return at->second;
}

void add_decisions(const study::Study& study, rules::Color side, std::uint32_t game,
                   const DecisionRule& settings, Topics& topics, std::vector<Decision>& decisions) {
  Situation situation{.study = study};
  situation.position = study.start;
  situation.starting_seconds = starting_seconds(study, side);
  for (const rules::Move move : study.moves) {
    if (situation.position.side_to_move() == side) {
      if (study::is_decision(situation.note(situation.ply), settings.decided)) {
        decisions.push_back(decision_of(situation, settings, topics));
        decisions.back().place.game = game;
        decisions.back().year = year_of(study);
      }
      situation.castled = situation.castled || move.is_castling();
    }
    situation.position.play(move);
    ++situation.ply;
  }
}

}  // namespace kairos::habits
