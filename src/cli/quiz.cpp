// kairos quiz: the puzzles of an EPD file asked one by one; missed ones come again.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <ctime>
#include <memory>

#include "kairos/base/text.hpp"
#include "kairos/puzzle/exercise_file.hpp"

#include "command.hpp"
#include "interrupt.hpp"
#include "letters_option.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "questions.hpp"
#include "quiz_dialogue.hpp"
#include "score_file.hpp"

namespace kairos::cli {

namespace {

using base::Code;
using base::Fault;

struct Arguments {
  std::string file;
  std::string theme;
  std::uint64_t count = 10;
  int level = 0;      // a rating; 0: the order of the file
  std::string score;  // empty: beside the file
  std::string today;  // empty: by the clock
  rules::Letters letters = rules::Letters::english;
};

// By the clock and time zone of the machine.
audience::Day day_of_clock() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  ::localtime_r(&now, &local);
  return audience::Day{std::chrono::year{local.tm_year + 1900} / (local.tm_mon + 1) /
                       local.tm_mday};
}

std::string nothing_to_ask(audience::Day next, audience::Day today) {
  const bool tomorrow = next == today + std::chrono::days{1};
  return "nothing is due today; the next comes again " +
         (tomorrow ? "tomorrow" : "on " + audience::day_text(next));
}

base::Result<audience::Day> today_of(const Arguments& arguments) {
  if (arguments.today.empty()) return day_of_clock();
  if (const auto day = audience::parse_day(arguments.today)) return *day;
  return Fault{Code::usage, "a day is written YYYY-MM-DD", {}};
}

ExitCode run_quiz(const Arguments& arguments) {
  Output::get().set_letters(arguments.letters);
  const auto today = today_of(arguments);
  if (!today) return failed(today.faults());
  auto puzzles = questions_of(arguments.file);
  if (!puzzles) return failed(puzzles.faults());
  if (!arguments.theme.empty()) {
    const auto kept = puzzle::keep_theme(*puzzles, arguments.theme);
    if (!kept) return failed(kept.faults());
  }
  if (arguments.level > 0) puzzle::put_fitting_first(*puzzles, arguments.level);
  const std::string score_file =
      arguments.score.empty() ? arguments.file + ".score" : arguments.score;
  const auto scores = read_scores(score_file);
  if (!scores) return failed(scores.faults());
  std::vector<std::string> positions;
  for (const puzzle::Exercise& exercise : *puzzles) {
    positions.push_back(audience::position_of(exercise));
  }
  const audience::DuePuzzles due = audience::due_puzzles(positions, *scores, *today);
  if (due.asked.empty()) {
    Output::get().line(nothing_to_ask(*due.next, *today));
    return exit_done;
  }
  if (!can_write_score(score_file)) return exit_unreadable;
  std::vector<const puzzle::Exercise*> questions;
  for (const std::size_t i : due.asked) {
    if (questions.size() < arguments.count) questions.push_back(&(*puzzles)[i]);
  }
  Dialogue dialogue(score_file, *today, arguments.letters);
  const auto asked = dialogue.ask(questions);
  if (!asked) return failed(asked.faults());
  Output::get().line(dialogue.summary());
  return catch_interrupts() ? exit_interrupted : exit_done;
}

}  // namespace

Command register_quiz(CLI::App& program) {
  CLI::App& command = add_command(
      program, {.name = "quiz",
                .purpose = "Asks the puzzles of an EPD file one by one; missed ones come again",
                .examples = "  kairos quiz puzzles.epd\n"
                            "  kairos quiz puzzles.epd --theme mate --count 5\n",
                .studies = true});
  auto arguments = std::make_shared<Arguments>();
  command.add_option("FILE.epd", arguments->file, "Puzzles with bm or pv, best first")->required();
  command.add_option("--theme", arguments->theme, "Only puzzles with this word in a theme")
      ->type_name("WORD");
  add_number(command, "--count", arguments->count, "At most so many questions",
             {.least = 1, .most = 1'000'000, .unit = "questions"})
      ->type_name("N")
      ->default_str(plain_digits(static_cast<double>(arguments->count)));
  add_number(command, "--level", arguments->level,
             "Ask first what from 1 to 7 in 10 players of this rating find",
             {.least = least_level, .most = most_level})
      ->type_name("R")
      ->default_str("the order of the file");
  command
      .add_option("--score", arguments->score,
                  "Where to keep what was right and what was missed (default: FILE.epd.score)")
      ->type_name("FILE");
  add_letters_option(command, arguments->letters);
  command.add_option("--today", arguments->today, "Ask as on this day (default: by the clock)")
      ->type_name("YYYY-MM-DD");
  return {&command, [arguments] { return run_quiz(*arguments); }};
}

}  // namespace kairos::cli
