#include "habit_prose.hpp"

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"

#include "labels.hpp"

namespace kairos::report {

namespace {

std::string interval_text(const habits::Rate& rate) {
  const base::Interval interval = rate.interval();
  return base::fixed(interval.low * 100, 1) + " to " + rate_text(interval.high);
}

}  // namespace

std::string rate_text(double share) {
  return base::fixed(share * 100, 1) + " %";
}

std::string habits_opening(const habits::Habits& h) {
  return "In " + base::counted(h.games, "game") + " " + base::isolated(h.player) + " had " +
         base::grouped(h.player_rate.decisions) +
         " decisions: moves with a choice in positions that were not decided. " +
         rate_text(h.player_rate.share()) + " of them were errors, moves that cost " +
         rate_text(h.error_cost) +
         " of the expected score or more (95 %: " + interval_text(h.player_rate) + "); of " +
         base::isolated(h.field) + " " + rate_text(h.field_rate.share()) + " of " +
         base::grouped(h.field_rate.decisions) + ".";
}

std::string habit_sentence(const habits::Habits& h, const habits::Habit& habit) {
  const bool more = habit.player.share() > habit.field.share();
  std::string text = more ? "More errors " : "Fewer errors ";
  return text + base::to_utf8(habit.words) + ": " + rate_text(habit.player.share()) + " of " +
         base::grouped(habit.player.decisions) +
         " decisions (95 %: " + interval_text(habit.player) + "), " + base::isolated(h.field) +
         " " + rate_text(habit.field.share()) + " of " + base::grouped(habit.field.decisions) + ".";
}

std::string unsure_sentence(const habits::Habits& h, const habits::Habit& habit) {
  std::string text = habit_sentence(h, habit);
  if (habit.more_games > 0) {
    text += " About " + base::grouped(habit.more_games) + " more games would tell.";
  }
  return text;
}

std::string years_text(const habits::Habit& habit) {
  std::string text;
  for (const habits::Years& years : habit.years) {
    text += (text.empty() ? "" : ", ") + std::to_string(years.first);
    if (years.last > years.first) text += "-" + std::to_string(years.last);
    text += " " + rate_text(years.rate.share());
  }
  return text;
}

std::string no_habit_text(const habits::Habits& h) {
  if (h.circumstances == 0) {
    return "These games are too few to tell any habit: no circumstance came up often enough "
           "on both sides.";
  }
  std::string text = "No habit can be told from these games: in none of " +
                     base::grouped(h.circumstances) +
                     " circumstances that came up often enough does the difference go beyond what "
                     "chance brings when so many are tried.";
  if (h.games_for_double > h.games) {
    text += " To see an error rate that is doubled in one decision of ten takes about " +
            base::counted(h.games_for_double, "game") + "; these are " + base::grouped(h.games) +
            ".";
  }
  return text;
}

std::string example_text(const habits::Example& e) {
  return numbered(e.position, e.played) + " cost " + percent(e.cost) +
         (e.verified ? "" : " by the survey") + "; better was " + numbered(e.position, e.best) +
         ". " + base::isolated(e.game_label) + ".";
}

}  // namespace kairos::report
