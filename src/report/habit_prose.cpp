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

// "1.25 times"
std::string times_text(double times) {
  return base::fixed(times, 2) + " times";
}

std::string estimate_text(const habits::Expectation& e) {
  if (!tells_rating(e))
    return "These games are too few to say which rating goes with so many errors.";
  return "Players who make so many are rated about " + rating_words(e.estimate) +
         " (95 %: " + rating_words(e.low) + " to " + rating_words(e.high) +
         "): an estimate from moves (after Regan and Haworth, 2011), no rating.";
}

// "Where Birch, Jon errs more than players like them".
std::string errs_title(const habits::Habits& h, std::string_view opponent, std::string_view more) {
  const bool field = h.measure == habits::Measure::field;
  return "Where " + std::string(opponent) + " errs " + std::string(more) + " than " +
         (field ? "others" : "players like them");
}

std::string expected_sentence(const habits::Habit& habit) {
  const auto errors = static_cast<double>(habit.player.errors);
  std::string text = errors > habit.expected ? "More errors " : "Fewer errors ";
  text += base::to_utf8(habit.words) + ": " + base::grouped(habit.player.errors) + " in " +
          base::grouped(habit.player.decisions) + " decisions, where " +
          base::fixed(habit.expected, 1) + " were to be expected at the player's level, " +
          times_text(errors / habit.expected) + " as many";
  if (habit.multiple) text += " (95 %: " + times_interval(*habit.multiple) + ")";
  return text + ".";
}

}  // namespace

bool tells_rating(const habits::Expectation& e) {
  return e.low > study::chance_ratings.front() || e.high < study::chance_ratings.back();
}

std::string rating_words(int rating) {
  std::string text = std::to_string(rating);
  if (rating <= study::chance_ratings.front()) text += " or less";
  if (rating >= study::chance_ratings.back()) text += " or more";
  return text;
}

std::string times_interval(const base::Interval& interval) {
  return base::fixed(interval.low, 2) + " to " + base::fixed(interval.high, 2);
}

std::string rate_text(double share) {
  return base::fixed(share * 100, 1) + " %";
}

std::string habits_opening(const habits::Habits& h) {
  std::string text = "In " + base::counted(h.games, "game") + " " + base::isolated(h.player) +
                     " had " + base::grouped(h.player_rate.decisions) +
                     " decisions: moves with a choice in positions that were not decided. " +
                     rate_text(h.player_rate.share()) + " of them were errors, moves that cost " +
                     rate_text(h.error_cost) +
                     " of the expected score or more (95 %: " + interval_text(h.player_rate) + ")";
  if (h.measure == habits::Measure::expectation) return text + ".";
  return text + "; of " + base::isolated(h.field) + " " + rate_text(h.field_rate.share()) + " of " +
         base::grouped(h.field_rate.decisions) + ".";
}

std::string expectation_text(const habits::Habits& h) {
  if (!h.expectation && h.measure == habits::Measure::expectation) {
    return "These games are too few to hold all errors together against what was to be expected.";
  }
  if (!h.expectation) return "";
  const habits::Expectation& e = *h.expectation;
  std::string rated = std::to_string(e.rating) + " on average";
  if (e.unrated) {
    rated += ", taken as " + std::to_string(study::unrated) + " where no rating is given";
  }
  return "Of players of the same rating (" + rated + ") " + base::fixed(e.errors, 0) +
         " errors were to be expected in these positions; there were " +
         base::fixed(e.errors * e.ratio, 0) + ", " + times_text(e.ratio) +
         " as many (95 %: " + times_interval(e.interval) + "). " + estimate_text(e);
}

std::string more_title(const habits::Habits& h, std::string_view opponent) {
  if (!opponent.empty()) return errs_title(h, opponent, "more");
  return h.measure == habits::Measure::field ? "Where more goes wrong than with others"
                                             : "Where more goes wrong than is to be expected";
}

std::string fewer_title(const habits::Habits& h, std::string_view opponent) {
  if (!opponent.empty()) return errs_title(h, opponent, "less");
  return h.measure == habits::Measure::field ? "Where less goes wrong than with others"
                                             : "Where less goes wrong than is to be expected";
}

std::string measure_text(const habits::Habits& h, std::string_view opponent) {
  if (h.measure == habits::Measure::field) return "";
  if (h.habits.empty() && h.strengths.empty() && h.unsure.empty()) return "";
  std::string text =
      "What is to be expected comes from the positions, by a model of what players of each rating "
      "play, and from the player's errors in all: each circumstance below is held against the "
      "player's own level.";
  if (!opponent.empty()) text += " Players like them are those who err as often in all.";
  return text;
}

std::string habit_sentence(const habits::Habits& h, const habits::Habit& habit) {
  if (h.measure == habits::Measure::expectation) return expected_sentence(habit);
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
  const bool field = h.measure == habits::Measure::field;
  if (h.circumstances == 0) {
    return std::string(
               "These games are too few to tell any habit: no circumstance came up often "
               "enough") +
           (field ? " on both sides." : ".");
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
