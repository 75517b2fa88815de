#include "kairos/audience/count.hpp"

#include <algorithm>

#include "kairos/audience/meaning.hpp"

#include "name_key.hpp"

namespace kairos::audience {

namespace {

// All of the solution, from one of its keys on.
bool is_whole(const puzzle::Puzzle& puzzle, const std::vector<rules::Move>& moves) {
  const auto asked = asked_of(puzzle);
  return moves.size() >= asked.size() && std::equal(asked.begin(), asked.end(), moves.begin());
}

void add(Tally::Right& right, const Person& person) {
  if (right.first.size() < Tally::Right::most_kept) right.first.push_back(person);
  ++right.count;
}

}  // namespace

Count::Taken Count::take(std::string_view text) {
  ++counts_.lines;
  const auto line = read_answer_line(text);
  if (!line) {
    ++counts_.unreadable;
    return {.fate = Fate::unreadable};
  }
  if (is_closed_) {
    ++counts_.late;
    return {.fate = Fate::late, .name = line->name};
  }
  if (keep_ == Keep::first && people_.contains(name_key(line->name))) {
    ++counts_.again;
    return {.fate = Fate::again, .name = line->name};
  }
  const puzzle::Puzzle& puzzle = exercise_.puzzle;
  const Meant meant = read_meant(puzzle.position, line->words, asked_of(puzzle), letters_);
  if (!meant.line.moves.empty()) return take(*line, meant.line.moves);
  if (meant.line.refused.problem != base::Code::not_a_move) {
    return refuse(*line, meant.line.refused);
  }
  ++(meant.names_unmeant ? counts_.unmeant : counts_.talk);
  return {.fate = meant.names_unmeant ? Fate::unmeant : Fate::talk, .name = line->name};
}

Count::Taken Count::refuse(const AnswerLine& line, const TypedMove& refused) {
  ++counts_.refused;
  const std::string why = std::string(base::words(refused.problem)) + ": " + refused.why;
  if (const auto known = refused_.find(refused.text); known != refused_.end()) {
    ++known->second.count;
  } else if (refused_.size() < most_refused) {
    refused_[refused.text] = {refused.text, why, 1};
  }
  return {.fate = Fate::refused, .name = line.name, .why = refused.text + ": " + why};
}

Count::Taken Count::take(const AnswerLine& line, const std::vector<rules::Move>& moves) {
  Voice voice{.person = {line.name, line.time},
              .move = moves.front(),
              .is_whole = is_whole(exercise_.puzzle, moves)};
  Taken taken{.fate = Fate::counted, .name = line.name, .move = voice.move};
  const auto known = people_.find(name_key(line.name));
  if (known != people_.end()) {
    const Voice& before = voices_.at(known->second);
    if (before.move == voice.move && before.is_whole >= voice.is_whole) {
      ++counts_.again;
      return {.fate = Fate::again, .name = line.name};
    }
    ++counts_.changed;
    taken.fate = Fate::changed;
    voices_.erase(known->second);
    known->second = counts_.lines;
  } else if (people_.size() == most_people) {
    ++counts_.too_many;
    return {.fate = Fate::too_many, .name = line.name};
  } else {
    people_.emplace(name_key(line.name), counts_.lines);
    ++counts_.people;
  }
  taken.is_new = std::ranges::find(said_, voice.move) == said_.end();
  if (taken.is_new) said_.push_back(voice.move);
  voices_.emplace_hint(voices_.end(), counts_.lines, std::move(voice));
  return taken;
}

std::vector<Solver> Count::solvers() const {
  const bool is_long = asked_of(exercise_.puzzle).size() > 1;
  std::vector<Solver> solvers;
  for (const auto& [number, voice] : voices_) {
    if (!exercise_.is_key(voice.move)) continue;
    solvers.push_back({voice.person.name, is_long && voice.is_whole});
  }
  return solvers;
}

Tally Count::tally() const {
  Tally tally;
  tally.counts = counts_;
  for (const auto& [number, voice] : voices_) {
    const bool is_key = exercise_.is_key(voice.move);
    if (is_key) add(tally.with_key, voice.person);
    if (voice.is_whole) add(tally.with_solution, voice.person);
    const auto row = std::ranges::find(tally.rows, voice.move, &Tally::Row::move);
    if (row != tally.rows.end()) {
      ++row->count;
    } else {
      tally.rows.push_back({voice.move, 1, voice.person, is_key});
    }
  }
  for (const auto& [text, refused] : refused_) tally.refused.push_back(refused);
  const auto by_count = [](const auto& a, const auto& b) { return a.count > b.count; };
  std::stable_sort(tally.rows.begin(), tally.rows.end(), by_count);
  std::stable_sort(tally.refused.begin(), tally.refused.end(), by_count);
  return tally;
}

}  // namespace kairos::audience
