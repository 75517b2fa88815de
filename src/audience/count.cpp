#include "kairos/audience/count.hpp"

#include <algorithm>

#include "kairos/audience/typed.hpp"
#include "kairos/base/text.hpp"

namespace kairos::audience {

namespace {

// What tells people apart: capitals do not, nor does the sign before a name that is spoken to.
std::string identity(const std::string& name) {
  const std::string lower = base::lower_case(name);
  const auto begin = lower.find_first_not_of('@');
  return begin == std::string::npos ? lower : lower.substr(begin);
}

// All of the solution, from one of its keys on.
bool is_whole(const puzzle::Puzzle& puzzle, const std::vector<rules::Move>& moves) {
  const auto asked = asked_of(puzzle);
  return moves.size() >= asked.size() && std::equal(asked.begin(), asked.end(), moves.begin());
}

void add(Tally::Right& right, const AnswerLine& line) {
  if (right.first.size() < Tally::Right::most_kept) right.first.push_back({line.name, line.time});
  ++right.count;
}

}  // namespace

Count::Taken Count::take(std::string_view text) {
  ++tally_.counts.lines;
  const auto line = read_answer_line(text);
  if (!line) {
    ++tally_.counts.unreadable;
    return {.fate = Fate::unreadable};
  }
  if (people_.contains(identity(line->name))) {
    ++tally_.counts.again;
    return {.fate = Fate::again, .name = line->name};
  }
  const puzzle::Puzzle& puzzle = exercise_.puzzle;
  const TypedLine typed = read_typed_line(puzzle.position, line->words, asked_of(puzzle));
  if (!typed.moves.empty()) return take(*line, typed.moves);
  if (typed.refused.problem == base::Code::not_a_move) {
    ++tally_.counts.talk;
    return {.fate = Fate::talk, .name = line->name};
  }
  ++tally_.counts.refused;
  const std::string& phrase = typed.refused.text;
  const std::string why =
      std::string(base::words(typed.refused.problem)) + ": " + typed.refused.why;
  if (const auto known = refused_.find(phrase); known != refused_.end()) {
    ++known->second.count;
  } else if (refused_.size() < most_refused) {
    refused_[phrase] = {phrase, why, 1};
  }
  return {.fate = Fate::refused, .name = line->name, .why = phrase + ": " + why};
}

Count::Taken Count::take(const AnswerLine& line, const std::vector<rules::Move>& moves) {
  if (people_.size() == most_people) {
    ++tally_.counts.too_many;
    return {.fate = Fate::too_many, .name = line.name};
  }
  people_.insert(identity(line.name));
  ++tally_.counts.people;
  const rules::Move move = moves.front();
  const bool is_key = exercise_.is_key(move);
  if (is_key) add(tally_.with_key, line);
  if (is_whole(exercise_.puzzle, moves)) add(tally_.with_solution, line);
  Taken taken{.fate = Fate::counted, .name = line.name, .move = move};
  const auto row = std::ranges::find(tally_.rows, move, &Tally::Row::move);
  if (row != tally_.rows.end()) {
    ++row->count;
  } else {
    tally_.rows.push_back({move, 1, {line.name, line.time}, is_key});
    taken.is_new = true;
  }
  return taken;
}

Tally Count::tally() const {
  Tally tally = tally_;
  for (const auto& [text, refused] : refused_) tally.refused.push_back(refused);
  const auto by_count = [](const auto& a, const auto& b) { return a.count > b.count; };
  std::stable_sort(tally.rows.begin(), tally.rows.end(), by_count);
  std::stable_sort(tally.refused.begin(), tally.refused.end(), by_count);
  return tally;
}

}  // namespace kairos::audience
