#include "kairos/base/text.hpp"
#include "kairos/report/habits.hpp"
#include "kairos/report/text_layout.hpp"

#include "habit_prose.hpp"
#include "text_page.hpp"

namespace kairos::report {

namespace {

constexpr std::size_t board_width = 26;

std::string habit_rows(const habits::Habits& all, const habits::Habit& habit, std::size_t number) {
  std::string text;
  append(text, wrapped(habit_sentence(all, habit), page_width, std::to_string(number) + ". "));
  if (const std::string years = years_text(habit); !years.empty()) {
    append(text, wrapped("Over the years: " + years + ".", page_width, "   "));
  }
  for (const habits::Example& example : habit.examples) {
    text += "\n";
    append(text, beside(board_rows(example.position, example.position.side_to_move()), board_width,
                        wrapped(example_text(example), page_width - board_width)));
  }
  if (!habit.puzzles.empty()) {
    text += "\n";
    append(text, wrapped("Puzzles of this kind: " + base::join(habit.puzzles, ", ") + ".",
                         page_width, "   "));
  }
  return text + "\n";
}

std::string list(const habits::Habits& all, const std::vector<habits::Habit>& habits,
                 std::string_view title) {
  if (habits.empty()) return "";
  std::string text;
  append(text, wrapped(title, page_width));
  text += "\n";
  for (std::size_t i = 0; i < habits.size(); ++i) text += habit_rows(all, habits[i], i + 1);
  return text;
}

std::string unsure_list(const habits::Habits& all) {
  if (all.unsure.empty()) return "";
  std::string text = "NOT ENOUGH GAMES TO TELL\n\n";
  for (const habits::Habit& habit : all.unsure) {
    append(text, wrapped(unsure_sentence(all, habit), page_width, "* "));
  }
  return text + "\n";
}

}  // namespace

std::string habits_text(const habits::Habits& habits, std::string_view opponent) {
  std::string text;
  for (const std::string& words :
       {habits_opening(habits), expectation_text(habits), measure_text(habits, opponent)}) {
    if (words.empty()) continue;
    append(text, wrapped(words, page_width));
    text += "\n";
  }
  if (habits.habits.empty()) {
    append(text, wrapped(no_habit_text(habits), page_width));
    text += "\n";
  }
  return text + list(habits, habits.habits, capitals(more_title(habits, opponent))) +
         list(habits, habits.strengths, capitals(fewer_title(habits, opponent))) +
         unsure_list(habits);
}

}  // namespace kairos::report
