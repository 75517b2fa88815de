// kairos tally: many people's answers to a puzzle, or to several one after the other, as they type
// them: how many for each move, what is wrong with the wrong ones, who was first and who saw it
// all.
//
// Lines are counted as they come; each move that somebody names is judged in the background
// (tally_session.hpp). Where standard output is a terminal (and the lines are not typed into the
// same one) the table is kept up to date; the last one is printed when the question is over.
#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>
#include <set>

#include "kairos/audience/again.hpp"
#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/puzzle/exercise_file.hpp"

#include "command.hpp"
#include "interrupt.hpp"
#include "letters_option.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "questions.hpp"
#include "score_file.hpp"
#include "tally_session.hpp"
#include "threads.hpp"

namespace kairos::cli {

namespace {

struct Arguments {
  std::string epd;
  std::string id;  // empty: all, one after the other
  TallySettings settings;
};

// What is asked: one question, or those of the file that were not asked yet, with what was before
// them.
struct Questions {
  std::vector<puzzle::Exercise> asked;
  audience::Evening evening;
};

base::Result<Questions> one_question(const Arguments& arguments) {
  if (!arguments.settings.score.empty()) {
    return base::Fault{base::Code::usage, "--score goes with several questions, without --id", {}};
  }
  auto exercise = puzzle::find_exercise(arguments.epd, arguments.id);
  if (!exercise) return std::move(exercise).faults();
  if (exercise->keys.empty()) {
    return base::Fault{base::Code::usage, "the position names no right move (bm or pv)", {}};
  }
  return Questions{{*std::move(exercise)}, {}};
}

// A position that stands there twice is asked once.
base::Result<Questions> several_questions(const Arguments& arguments) {
  auto all = questions_of(arguments.epd);
  if (!all) return std::move(all).faults();
  auto evening = read_evening(arguments.settings.score);
  if (!evening) return std::move(evening).faults();
  Questions questions{{}, *std::move(evening)};
  std::set<std::string> met;
  for (const auto& question : questions.evening.asked) met.insert(question.position);
  for (puzzle::Exercise& exercise : *all) {
    if (!met.insert(audience::position_of(exercise)).second) continue;
    questions.asked.push_back(std::move(exercise));
  }
  return questions;
}

// The page is written over again and again: never over a file that is something else.
base::Status check_page(const std::string& file) {
  std::error_code error;
  if (file.empty() || !std::filesystem::exists(file, error)) return base::done();
  constexpr std::string_view begin = "<!DOCTYPE html>", sign = "<body class=\"tally\">";
  const auto bytes = base::read_file(file);
  if (!bytes) return bytes.faults();
  if (bytes->empty() || (bytes->starts_with(begin) && bytes->find(sign) != std::string::npos)) {
    return base::done();
  }
  return base::Fault{
      base::Code::usage, file + " is no page of a tally: name another file with --page", {}};
}

ExitCode run_tally(const Arguments& given) {
  Arguments arguments = given;
  TallySettings& settings = arguments.settings;
  const bool several = arguments.id.empty();
  if (several && settings.score.empty()) settings.score = arguments.epd + ".evening";
  auto questions = several ? several_questions(arguments) : one_question(arguments);
  if (!questions) return failed(questions.faults());
  if (const auto free = check_page(settings.page); !free) return failed(free.faults());
  if (several && questions->asked.empty()) {
    Output::get().line("all questions have been asked; for a new evening take away " +
                       settings.score + ", or name another file with --score");
    const auto places = audience::places_of(questions->evening);
    Output::get().text(report::places_text(places, places.size()));
    return exit_done;
  }
  if (several && !can_write_score(settings.score)) return exit_unreadable;
  if (const std::size_t over = questions->evening.asked.size(); over > 0) {
    log_info("going on behind " + base::counted(over, "question") + " of this evening, as " +
             settings.score + " has them");
  }
  TallySession session(settings, std::move(questions->asked), std::move(questions->evening));
  if (const auto ended = session.run(); !ended) return failed(ended.faults());
  if (catch_interrupts()) return exit_interrupted;
  return session.has_lost_page() ? exit_not_held : exit_done;
}

void add_look_options(CLI::App& command, TallySettings& settings) {
  add_number(command, "--top", settings.view.most, "Moves shown, by the number of people",
             {.least = 1, .most = 300, .unit = "moves"})
      ->type_name("N")
      ->default_str(plain_digits(static_cast<double>(settings.view.most)));
  add_number(command, "--nodes", settings.nodes, "Nodes for the verdict on each move",
             {.least = 1'000, .most = most_nodes, .unit = "nodes"})
      ->type_name("N")
      ->default_str(plain_digits(static_cast<double>(settings.nodes)));
  add_number(command, "--level", settings.view.level,
             "At the end: how many players of this rating would find it, where the file says so",
             {.least = least_level, .most = most_level})
      ->type_name("R")
      ->default_str(plain_digits(settings.view.level));
  add_threads_option(command, settings.threads);
  add_letters_option(command, settings.view.letters);
}

}  // namespace

Command register_tally(CLI::App& program) {
  CLI::App& command = add_command(
      program,
      {.name = "tally",
       .purpose = "Count many people's answers to puzzles: who was right, who first, what refutes",
       .examples = "  kairos tally --epd puzzles.epd --id g3-m21w < answers.txt\n"
                   "  cat answers.txt | kairos tally --epd puzzles.epd --id g3-m21w --hide\n"
                   "  cat answers.txt | kairos tally --epd puzzles.epd --page count.html\n",
       .studies = true});
  auto arguments = std::make_shared<Arguments>();
  TallySettings& settings = arguments->settings;
  command.add_option("--epd", arguments->epd, "EPD file with the puzzles")
      ->type_name("FILE")
      ->required();
  command.add_option("--id", arguments->id, "Which puzzle; without it all, one after the other")
      ->type_name("ID");
  add_look_options(command, settings);
  command.add_flag("--latest", settings.latest,
                   "Of a person's answers the latest counts, not the first");
  command.add_flag("--hide", settings.hide,
                   "On the terminal show the counts alone, until Enter shows the answer");
  auto* page =
      command
          .add_option("--page", settings.page,
                      "Keep a page for a browser: bars by move, and the answer once Enter shows it")
          ->type_name("FILE");
  command.add_flag("--reveal", settings.reveal, "The page shows the answer from the start")
      ->needs(page);
  command
      .add_option("--score", settings.score,
                  "Of several puzzles: where points are kept (default: FILE.evening)")
      ->type_name("FILE");
  command.add_flag("--json", settings.json, "One JSON object when a question is over");
  return {&command, [arguments] { return run_tally(*arguments); }};
}

}  // namespace kairos::cli
