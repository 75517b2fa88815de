#include "html_habits.hpp"

#include <algorithm>

#include "habit_prose.hpp"
#include "html_diagram.hpp"
#include "html_page.hpp"

namespace kairos::report {

namespace {

// Where the puzzles named are to be found: on a page of all, or some of them on this one.
struct Puzzles {
  std::string_view page;
  const std::vector<std::string>* here = nullptr;  // the ids; nullptr: all are on `page`
};

std::string puzzle_name(const std::string& id, const Puzzles& puzzles) {
  const bool found =
      puzzles.here == nullptr || std::ranges::find(*puzzles.here, id) != puzzles.here->end();
  if (!found) return " " + escaped(id);
  return " <a href=\"" + std::string(puzzles.page) + "#" + escaped(id) + "\">" + escaped(id) +
         "</a>";
}

std::string puzzle_list(const habits::Habit& habit, const Puzzles& puzzles) {
  if (habit.puzzles.empty()) return "";
  std::string html = "<p class=\"small screen\">Puzzles of this kind:";
  for (const std::string& id : habit.puzzles) html += puzzle_name(id, puzzles);
  return html + "</p>\n";
}

std::string habit_item(const habits::Habits& all, const habits::Habit& habit,
                       const Puzzles& puzzles) {
  std::string html = "<li>" + paragraph(habit_sentence(all, habit), "said");
  if (const std::string years = years_text(habit); !years.empty()) {
    html += paragraph("Over the years: " + years + ".", "small");
  }
  if (!habit.examples.empty()) html += "<ul class=\"thumbs\">\n";
  for (const habits::Example& example : habit.examples) {
    html += "<li>" + diagram(example.position, {{}, example.played}) +
            paragraph(example_text(example), "small") + "</li>\n";
  }
  if (!habit.examples.empty()) html += "</ul>\n";
  return html + puzzle_list(habit, puzzles) + "</li>\n";
}

std::string list(const habits::Habits& all, const std::vector<habits::Habit>& habits,
                 std::string_view title, const Puzzles& puzzles) {
  if (habits.empty()) return "";
  std::string html = "<h3>" + escaped(title) + "</h3>\n<ol>\n";
  for (const habits::Habit& habit : habits) html += habit_item(all, habit, puzzles);
  return html + "</ol>\n";
}

std::string unsure_list(const habits::Habits& all) {
  if (all.unsure.empty()) return "";
  std::string html = "<h3>Not enough games to tell</h3>\n<ul>\n";
  for (const habits::Habit& habit : all.unsure) {
    html += "<li>" + escaped(unsure_sentence(all, habit)) + "</li>\n";
  }
  return html + "</ul>\n";
}

std::string section(const habits::Habits& habits, const Puzzles& puzzles,
                    std::string_view opponent) {
  std::string html = "<section id=\"habits\">\n<h2>What keeps coming back</h2>\n";
  html += paragraph(habits_opening(habits));
  html += paragraph(expectation_text(habits)) + paragraph(measure_text(habits, opponent));
  if (habits.habits.empty()) html += paragraph(no_habit_text(habits));
  html += list(habits, habits.habits, more_title(habits, opponent), puzzles);
  html += list(habits, habits.strengths, fewer_title(habits, opponent), puzzles);
  return html + unsure_list(habits) + "</section>\n";
}

}  // namespace

std::string habits_section(const habits::Habits& habits) {
  return section(habits, {"questions.html"}, "");
}

std::string habits_section(const habits::Habits& habits, const std::vector<std::string>& here,
                           std::string_view opponent) {
  return section(habits, {"", &here}, opponent);
}

}  // namespace kairos::report
