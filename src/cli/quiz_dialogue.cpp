#include "quiz_dialogue.hpp"

#include <algorithm>
#include <unistd.h>
#include <utility>

#include "kairos/audience/compare.hpp"
#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/exercise.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"

#include "output.hpp"
#include "score_file.hpp"
#include "terminal.hpp"
#include "threads.hpp"

namespace kairos::cli {

namespace {

constexpr const char* prompt = "your move (or hint, skip, quit): ";
constexpr const char* help =
    "Write a move, for instance Nf3, exd5, castles or \"rook takes e4\"; or one of the words hint, "
    "skip, quit.";

constexpr int most_wrong = 3;                   // then the solution is shown
constexpr std::uint64_t weigh_nodes = 200'000;  // a few tenths of a second
constexpr std::size_t shown_plies = 10;         // of what refutes a move

// In lines that fit the terminal, those behind the first under its text; on a pipe in one line.
void say(std::string_view text, std::string_view label = "") {
  static const Looks looks = looks_of(STDOUT_FILENO);
  const std::size_t width = looks.is_terminal ? looks.width : text.max_size();
  const std::string seen = base::visible(text);
  for (const std::string& row : report::wrapped(seen, width, label)) Output::get().line(row);
}

// "  solution  35... Ra1+ 36. Qb1".
void say_row(const std::string& label, std::string_view text) {
  constexpr std::size_t indent = 12;
  say(text, report::fitted("  " + label, indent));
}

void say_solution(const puzzle::Exercise& exercise) {
  for (const auto& [label, text] : report::solution_rows(exercise)) say_row(label, text);
}

// Beside the key; nothing when it was interrupted.
std::optional<study::Weighed> weighed(const puzzle::Puzzle& p, rules::Move move,
                                      const std::atomic<bool>& stop) {
  using audience::Comparer;
  Comparer comparer(p.position, {}, {p.line.front(), move}, {}, Comparer::Best::among_the_moves,
                    tell_fewer_threads);
  if (!comparer.deepen(weigh_nodes, 0, &stop)) return std::nullopt;
  return comparer.weighed().back();
}

}  // namespace

struct Dialogue::Question {
  const puzzle::Exercise& asked;
  std::vector<std::string> hints;
  std::size_t hints_given = 0;
  int wrong = 0;
  bool counted = false;
};

Dialogue::Dialogue(std::string score_file, audience::Day today, rules::Letters letters)
    : score_file_(std::move(score_file)),
      today_(today),
      letters_(letters),
      interrupted_(catch_interrupts()),
      typed_lines_are_seen_(::isatty(STDIN_FILENO) == 1) {}

base::Status Dialogue::ask(const std::vector<const puzzle::Exercise*>& questions) {
  for (std::size_t i = 0; i < questions.size(); ++i) {
    const puzzle::Exercise& asked = *questions[i];
    say("Puzzle " + std::to_string(i + 1) + " of " + std::to_string(questions.size()));
    Output::get().text(report::question_text(asked.puzzle));
    Question question{.asked = asked, .hints = report::hints_of(asked)};
    const Next next = ask_one(question);
    say("");
    if (next == Next::end) break;
  }
  return written_;
}

Dialogue::Next Dialogue::ask_one(Question& question) {
  for (;;) {
    const auto line = read_line();
    if (!line) return Next::end;
    const Next next = take(question, *line);
    if (!written_ || interrupted_) return Next::end;
    if (next != Next::same) return next;
  }
}

// Where nobody sees what is typed, the line of the prompt is ended here.
std::optional<std::string> Dialogue::read_line() {
  Output::get().text(prompt);
  Output::get().flush();
  auto line = input_.wait(audience::longest_typed, interrupted_);
  if (!line || !typed_lines_are_seen_) say("");
  return line;
}

Dialogue::Next Dialogue::take(Question& question, std::string_view typed) {
  const std::string word = base::lower_case(base::trim(typed));
  if (word == "quit") return Next::end;
  if (word == "skip") return give_up(question);
  if (word == "hint") {
    give_hint(question);
    return Next::same;
  }
  const puzzle::Puzzle& p = question.asked.puzzle;
  const audience::TypedLine line =
      audience::read_typed_line(p.position, typed, asked_of(p), letters_);
  if (line.moves.empty()) {
    const audience::TypedMove& refused = line.refused;
    const bool is_move = refused.problem != base::Code::not_a_move;
    say(is_move ? refused.text + ": " + refused.why + "." : help);
    return Next::same;
  }
  const bool is_key = question.asked.is_key(line.moves.front());
  return is_key ? take_right(question, line) : take_wrong(question, line.moves.front());
}

Dialogue::Next Dialogue::take_right(Question& question, const audience::TypedLine& typed) {
  if (!count(question, true)) return Next::end;
  const bool at_once = question.wrong == 0;
  say((at_once ? "Right." : "Right, but not at once: it comes again tomorrow.") +
      report::followed_text(typed.moves, asked_of(question.asked.puzzle)));
  say_solution(question.asked);
  return Next::question;
}

Dialogue::Next Dialogue::take_wrong(Question& question, rules::Move move) {
  const puzzle::Puzzle& p = question.asked.puzzle;
  const std::string shown = report::numbered(p.position, move);
  std::string why, line;
  if (const puzzle::Try* tried = puzzle::find_try(p.tries, move)) {
    why = report::refuted_words(p.position, *tried, shown_plies);
  } else {
    const auto w = weighed(p, move, interrupted_);
    if (!w) return Next::end;
    if (w->is_good) {
      say(shown + " " + report::praise_text(p, *w, weigh_nodes));
      return Next::same;
    }
    why = report::verdict_words(p.position, *w);
    if (w->line.size() > 2) line = report::numbered_line(p.position, w->line, shown_plies);
  }
  if (!count(question, false)) return Next::end;
  say("No: " + shown + " " + why + ".");
  if (!line.empty()) say_row("line", line);
  const int left = most_wrong - ++question.wrong;
  if (left == 0) {
    say_solution(question.asked);
    return Next::question;
  }
  say("Try again: " + base::counted(static_cast<std::uint64_t>(left), "more answer") + ".");
  return Next::same;
}

Dialogue::Next Dialogue::give_up(Question& question) {
  if (!count(question, false)) return Next::end;
  say_solution(question.asked);
  return Next::question;
}

void Dialogue::give_hint(Question& question) {
  if (question.hints_given == question.hints.size()) {
    say(question.hints.empty() ? "There is no hint for this one." : "There are no more hints.");
    return;
  }
  say(question.hints[question.hints_given++]);
  ++hints_;
}

// The first answer that is right or wrong counts, and is on the disk before it is told.
bool Dialogue::count(Question& question, bool right) {
  if (std::exchange(question.counted, true)) return true;
  ++(right ? right_ : missed_);
  written_ = add_answer(score_file_, question.asked, right, today_);
  return written_.ok();
}

std::string Dialogue::summary() const {
  const int all = right_ + missed_;
  std::string text =
      all == 0 ? "nothing answered" : base::number(right_) + " of " + base::number(all) + " right";
  if (hints_ > 0) text += ", " + base::counted(static_cast<std::uint64_t>(hints_), "hint");
  if (missed_ > 0) {
    text += "; " + base::number(missed_) + (missed_ == 1 ? " comes" : " come") + " again tomorrow";
  }
  return text;
}

}  // namespace kairos::cli
