#include "tally_count.hpp"

#include <algorithm>

#include "kairos/audience/typed.hpp"
#include "kairos/base/text.hpp"

namespace kairos::cli {

namespace {

// What tells people apart: capitals do not, nor does the sign before a name that is spoken to.
std::string identity(const std::string& name) {
  const std::string lower = base::lower_case(name);
  const auto begin = lower.find_first_not_of('@');
  return begin == std::string::npos ? lower : lower.substr(begin);
}

// All of the solution, from one of its keys on.
bool is_whole(const puzzle::Puzzle& puzzle, const std::vector<rules::Move>& moves) {
  return moves.size() >= puzzle.line.size() &&
         std::equal(puzzle.line.begin(), puzzle.line.end(), moves.begin());
}

}  // namespace

void TallyCount::Roll::add(const AnswerLine& line) {
  if (first.size() < most_kept) first.push_back({line.name, line.time});
  ++count;
}

bool TallyCount::is_key(rules::Move move) const {
  return std::find(asked_.keys.begin(), asked_.keys.end(), move) != asked_.keys.end();
}

TallyCount::Hearing TallyCount::hear(std::string_view text) {
  ++counts_.lines;
  const auto line = read_answer_line(text);
  if (!line) {
    ++counts_.unreadable;
    return {.heard = Heard::unreadable};
  }
  if (people_.contains(identity(line->name))) {
    ++counts_.again;
    return {.heard = Heard::again, .name = line->name};
  }
  const audience::TypedLine typed =
      audience::read_typed_line(asked_.puzzle.position, line->words, asked_.puzzle.line);
  if (!typed.moves.empty()) return take(*line, typed.moves);
  if (typed.refused.problem == base::Code::not_a_move) {
    ++counts_.talk;
    return {.heard = Heard::talk, .name = line->name};
  }
  ++counts_.refused;
  const std::string why =
      std::string(base::words(typed.refused.problem)) + ": " + typed.refused.why;
  const auto known = refused_.find(typed.refused.text);
  if (known != refused_.end()) {
    ++known->second.count;
  } else if (refused_.size() < most_refused) {
    refused_[typed.refused.text] = {typed.refused.text, why, 1};
  }
  return {.heard = Heard::refused, .name = line->name, .why = typed.refused.text + ": " + why};
}

TallyCount::Hearing TallyCount::take(const AnswerLine& line,
                                     const std::vector<rules::Move>& moves) {
  if (people_.size() == most_people) {
    ++counts_.too_many;
    return {.heard = Heard::too_many, .name = line.name};
  }
  people_.insert(identity(line.name));
  ++counts_.people;
  const rules::Move move = moves.front();
  if (is_key(move)) with_key_.add(line);
  if (is_whole(asked_.puzzle, moves)) with_solution_.add(line);
  Hearing hearing{.heard = Heard::counted, .name = line.name, .move = move};
  const auto vote =
      std::find_if(votes_.begin(), votes_.end(), [move](const Votes& v) { return v.move == move; });
  if (vote != votes_.end()) {
    ++vote->count;
  } else {
    votes_.push_back({move, 1, {line.name, line.time}});
    hearing.is_new = true;
  }
  return hearing;
}

std::vector<TallyCount::Votes> TallyCount::votes() const {
  std::vector<Votes> sorted = votes_;
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const Votes& a, const Votes& b) { return a.count > b.count; });
  return sorted;
}

std::vector<TallyCount::Refused> TallyCount::refused() const {
  std::vector<Refused> sorted;
  for (const auto& [text, refused] : refused_) sorted.push_back(refused);
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const Refused& a, const Refused& b) { return a.count > b.count; });
  return sorted;
}

}  // namespace kairos::cli
