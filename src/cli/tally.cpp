// kairos tally: many people's answers to one puzzle, as they type them: how many for each move,
// what is wrong with the wrong ones, who was first and who saw it all.
//
// Lines are counted as they come; each move that somebody names is judged in the background. Where
// standard output is a terminal (and the lines are not typed into the same one) the table is kept
// up to date; the last one is printed when the lines end.
#include "kairos/report/tally.hpp"

#include <CLI/CLI.hpp>
#include <chrono>
#include <memory>
#include <unistd.h>

#include "kairos/audience/count.hpp"
#include "kairos/audience/verdicts.hpp"
#include "kairos/base/text.hpp"
#include "kairos/puzzle/exercise_file.hpp"
#include "kairos/rules/san.hpp"

#include "command.hpp"
#include "interrupt.hpp"
#include "letters_option.hpp"
#include "line_input.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "terminal.hpp"
#include "threads.hpp"

namespace kairos::cli {

namespace {

constexpr int redraw_every = 250;  // milliseconds

using Taken = audience::Count::Taken;

struct Arguments {
  std::string epd;
  std::string id;
  std::size_t top = 12;
  std::uint64_t nodes = 100'000;
  int level = study::unrated;
  int threads = 0;
  rules::Letters letters = rules::Letters::english;
  bool latest = false;
  bool hide = false;
  bool json = false;
};

// The count and the verdicts on what is counted.
class Tallier {
 public:
  Tallier(const puzzle::Exercise& exercise, const Arguments& arguments)
      : exercise_(exercise),
        arguments_(arguments),
        count_(exercise, arguments.latest ? audience::Keep::latest : audience::Keep::first,
               arguments.letters),
        verdicts_(exercise, arguments.nodes, arguments.threads) {
    if (verdicts_.lacks_threads()) tell_fewer_threads();
  }

  Taken take(std::string_view line) {
    Taken taken = count_.take(line);
    if (taken.is_new && !exercise_.is_key(taken.move)) verdicts_.hand_in(taken.move);
    return taken;
  }

  void finish() { verdicts_.finish(); }
  [[nodiscard]] std::string text(bool with_verdicts) {
    return report::tally_text(exercise_, tally(with_verdicts),
                              {.most = arguments_.top,
                               .reveals = with_verdicts,
                               .level = arguments_.level,
                               .letters = arguments_.letters});
  }
  [[nodiscard]] std::string json() {
    return report::tally_json(exercise_, tally(true), arguments_.level);
  }

 private:
  audience::Tally tally(bool with_verdicts) {
    audience::Tally tally = count_.tally();
    if (with_verdicts) verdicts_.complete(tally);
    return tally;
  }

  const puzzle::Exercise& exercise_;
  const Arguments& arguments_;
  audience::Count count_;
  audience::Verdicts verdicts_;
};

// Typed by hand: each line is answered at once, or the table would run into what is typed.
std::string reply_to(const puzzle::Exercise& exercise, const Taken& taken, rules::Letters letters) {
  using Fate = audience::Count::Fate;
  switch (taken.fate) {
    case Fate::counted:
    case Fate::changed:
      return "  " + taken.name + ": " +
             rules::in_letters(rules::to_san(exercise.puzzle.position, taken.move), letters) +
             (exercise.is_key(taken.move) ? ", the key" : "");
    case Fate::again:
      return "  " + taken.name + " has answered before";
    case Fate::refused:
      return "  " + taken.name + ": " + rules::in_letters(taken.why, letters);
    case Fate::unmeant:
      return "  " + taken.name + ": a move, but not as an answer";
    case Fate::talk:
      return "  " + taken.name + ": no move in these words";
    case Fate::unreadable:
      return "  not read: a line is \"name: words\"";
    case Fate::too_many:
      return "  more people than are kept";
  }
  return "";
}

// Shows the table again when something has changed, but not more than some times a second.
class Display {
 public:
  Display(Tallier& tally, const Arguments& arguments, bool by_hand)
      : tally_(tally), arguments_(arguments), on_(!by_hand && !arguments.json) {}

  void refresh() {
    const auto now = std::chrono::steady_clock::now();
    if (!on_ || !live_.is_live() || now - last_ < std::chrono::milliseconds(redraw_every)) return;
    last_ = now;
    live_.show(tally_.text(!arguments_.hide));
  }
  void clear() { live_.clear(); }

 private:
  Tallier& tally_;
  const Arguments& arguments_;
  bool on_;
  LiveText live_;
  std::chrono::steady_clock::time_point last_;
};

void listen(const puzzle::Exercise& exercise, const Arguments& arguments, Tallier& tally,
            Display& display, bool by_hand) {
  const std::atomic<bool>& stop = catch_interrupts();
  LineInput input;
  std::string line;
  while (!stop) {
    const LineInput::State state = input.next(line, audience::longest_line, redraw_every);
    if (state == LineInput::State::ended) return;
    if (state == LineInput::State::line && !base::trim(line).empty()) {
      const Taken taken = tally.take(line);
      if (by_hand) {
        Output::get().line(reply_to(exercise, taken, arguments.letters));
        Output::get().flush();
      }
    }
    display.refresh();
  }
}

ExitCode run_tally(const Arguments& arguments) {
  const auto exercise = puzzle::find_exercise(arguments.epd, arguments.id);
  if (!exercise) return failed(exercise.faults());
  if (exercise->keys.empty()) {
    return failed({{base::Code::usage, "the position names no right move (bm or pv)", {}}});
  }
  const bool by_hand = ::isatty(STDIN_FILENO) == 1;
  Tallier tally(*exercise, arguments);
  Display display(tally, arguments, by_hand);
  listen(*exercise, arguments, tally, display, by_hand);
  tally.finish();
  display.clear();
  Output::get().text(arguments.json ? tally.json() : tally.text(true));
  return catch_interrupts() ? exit_interrupted : exit_done;
}

}  // namespace

Command register_tally(CLI::App& program) {
  CLI::App& command = add_command(
      program,
      {.name = "tally",
       .purpose = "Count many people's answers to a puzzle: who was right, who first, what refutes",
       .examples = "  kairos tally --epd puzzles.epd --id g3-m21w < answers.txt\n"
                   "  cat answers.txt | kairos tally --epd puzzles.epd --id g3-m21w --hide\n",
       .studies = true});
  auto arguments = std::make_shared<Arguments>();
  command.add_option("--epd", arguments->epd, "EPD file with the puzzle")
      ->type_name("FILE")
      ->required();
  command.add_option("--id", arguments->id, "Which puzzle")->type_name("ID")->required();
  add_number(command, "--top", arguments->top, "Moves shown, by the number of people",
             {.least = 1, .most = 300, .unit = "moves"})
      ->type_name("N")
      ->default_str(plain_digits(static_cast<double>(arguments->top)));
  add_number(command, "--nodes", arguments->nodes, "Nodes for the verdict on each move",
             {.least = 1'000, .most = most_nodes, .unit = "nodes"})
      ->type_name("N")
      ->default_str(plain_digits(static_cast<double>(arguments->nodes)));
  add_number(command, "--level", arguments->level,
             "At the end: how many players of this rating would find it, where the file says so",
             {.least = least_level, .most = most_level})
      ->type_name("R")
      ->default_str(plain_digits(arguments->level));
  add_threads_option(command, arguments->threads);
  add_letters_option(command, arguments->letters);
  command.add_flag("--latest", arguments->latest,
                   "Of a person's answers the latest counts, not the first");
  command.add_flag("--hide", arguments->hide, "While the lines come show the counts alone");
  command.add_flag("--json", arguments->json, "One JSON object, when the lines end");
  return {&command, [arguments] { return run_tally(*arguments); }};
}

}  // namespace kairos::cli
