#include "clock_count.hpp"

#include <algorithm>
#include <cmath>

#include "kairos/study/expectation.hpp"

#include "situation.hpp"

namespace kairos::habits {

namespace {

constexpr std::array left_bounds = {60, 5 * 60, 10 * 60, 30 * 60};
constexpr std::array spent_bounds = {10, 60, 5 * 60, 15 * 60};

std::vector<TimeBand> bands(const std::array<int, 4>& bounds) {
  std::vector<TimeBand> all;
  int least = 0;
  for (const int bound : bounds) {
    all.push_back({.least = least, .below = bound});
    least = bound;
  }
  all.push_back({.least = least});
  return all;
}

bool is_one_good(const study::Note& note) {
  return study::expectation(note.lines[0].score) - study::expectation(note.lines[1].score) >=
         only_one_good;
}

void count(std::vector<TimeBand>& all, int seconds, bool one_good, bool error) {
  if (seconds < 0) return;
  const auto band = std::ranges::find_if(
      all, [seconds](const TimeBand& b) { return b.below == 0 || seconds < b.below; });
  Rate& rate = one_good ? band->one_good : band->several_good;
  ++rate.decisions;
  if (error) ++rate.errors;
}

std::vector<TimeBand> with_decisions(std::vector<TimeBand> all) {
  std::erase_if(all, [](const TimeBand& band) { return band.all().decisions == 0; });
  return all;
}

const study::Note& note_at(const study::Study& study, int ply) {
  return study.notes[static_cast<std::size_t>(ply)];
}

// By the survey.
bool hangs_little(const study::Note& note) {
  const double best = study::expectation(note.lines[0].score);
  return best - study::expectation(note.lines[1].score) <= little &&
         best - study::expectation(note.played_score) <= little;
}

}  // namespace

Think think_at(const study::Study& study, int ply) {
  Think think{.ply = ply};
  if (ply < 2) return think;
  think.left = note_at(study, ply - 2).clock_seconds;
  const int after = note_at(study, ply).clock_seconds;
  if (think.left >= 0 && after >= 0 && after <= think.left) think.spent = think.left - after;
  return think;
}

ClockCount::ClockCount() : by_left_(bands(left_bounds)), by_spent_(bands(spent_bounds)) {}

void ClockCount::add(const study::Study& study, std::span<const Decision> decisions) {
  bool any = false;
  for (const Decision& decision : decisions) {
    const Think think = think_at(study, decision.place.ply);
    const bool one_good = is_one_good(note_at(study, think.ply));
    count(by_left_, think.left, one_good, decision.error);
    count(by_spent_, think.spent, one_good, decision.error);
    any = any || think.left >= 0;
  }
  if (any) ++games_;
}

Clock ClockCount::counted() const {
  return {games_, with_decisions(by_left_), with_decisions(by_spent_)};
}

std::vector<Think> long_thinks_of(const study::Study& study, rules::Color side,
                                  std::span<const Decision> decisions) {
  const int starting = starting_seconds(study, side);
  std::vector<Think> thinks;
  for (const Decision& decision : decisions) {
    const Think think = think_at(study, decision.place.ply);
    if (starting <= 0 || think.spent < 0 || !is_long_think(think.spent, starting)) continue;
    if (hangs_little(note_at(study, think.ply))) thinks.push_back(think);
  }
  return thinks;
}

bool is_quick_error(const study::Study& study, rules::Color side, const study::Moment& m) {
  using study::Kind;
  const bool missed = (m.kind == Kind::only_move || m.kind == Kind::quiet_win) && !m.found;
  if (m.position.side_to_move() != side || (m.kind != Kind::swing && !missed)) return false;
  const int starting = starting_seconds(study, side);
  const Think think = think_at(study, m.ply);
  return starting > 0 && think.spent >= 0 && is_quick(think.spent, starting) &&
         !is_short_of_time(think.left, starting);
}

}  // namespace kairos::habits
