#include "weigh_dialogue.hpp"

#include <algorithm>
#include <new>
#include <unistd.h>
#include <utility>

#include "kairos/audience/typed.hpp"
#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/base/threads.hpp"
#include "kairos/report/comparison.hpp"
#include "kairos/report/conversation.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/draws.hpp"
#include "kairos/rules/fen.hpp"

#include "log.hpp"
#include "output.hpp"
#include "threads.hpp"

namespace kairos::cli {

namespace {

using audience::Question;
using audience::Request;
using audience::Turn;
using report::Rows;

constexpr std::uint64_t first_nodes = 20'000;              // a few hundredths of a second a move
constexpr std::uint64_t most_nodes_between = 100'000'000;  // a move: then it has thought enough
constexpr std::size_t board_width = 26;
constexpr std::size_t least_beside = 60;  // columns of a terminal that has room beside the board

Rows help_rows() {
  return {"Nf3            what about that move? Also in words: knight f3, castles",
          "Nf3 or Nc3     each of them",
          "Nf3 Nc6 Bb5    plays on, to the position after these moves",
          "and Nc6?       about a move after the one last asked about; and now: what is best there",
          "best  all      the best move; all moves in order",
          "why            more of the last answer: every reason, longer lines",
          "back  back 3   takes back; start: where we began",
          "27w  27b       before that move of the game; next: its next move; played: about it",
          "show  flip     the board; from the other side",
          "a FEN          another position",
          "quit           ends it",
          "For finished games only: during play all help is forbidden (FIDE Laws, 11.3)."};
}

std::string why_refused(const audience::Conversation& conversation, const Turn& turn,
                        const Request& request) {
  using Refusal = Turn::Refusal;
  switch (turn.refusal) {
    case Refusal::none:
      return "";
    case Refusal::not_understood:
      if (!request.faults.empty())
        return "That is no position: " + base::describe(request.faults.front());
      return request.refused.empty() ? "There is no move in that; help says what can be asked."
                                     : "";
    case Refusal::at_the_start:
      return "There is no move to take back.";
    case Refusal::no_game:
      return "No game was given: begin with --game FILE for that.";
    case Refusal::not_in_the_game:
      return "The game has no such move.";
    case Refusal::off_the_game:
      return "The game has no move here; 27w or start go back to it.";
    case Refusal::game_is_over:
      return "The game is over: " + std::string(rules::words(conversation.status())) + ".";
    case Refusal::nothing_to_explain:
      return "Ask about a move first, or for the best.";
  }
  return "";
}

// In which the moves of the request that cannot be played were read.
rules::Position read_in(const audience::Scene& before, const Request& request) {
  rules::Position p = before.position;
  if (request.after_asked && before.asked) p.play(before.asked);
  if (request.kind == Request::Kind::play) {
    for (const rules::Move move : request.moves) p.play(move);
  }
  return p;
}

std::string name_of(Turn::Kind kind) {
  switch (kind) {
    case Turn::Kind::nothing:
      return "nothing";
    case Turn::Kind::asks:
      return "answer";
    case Turn::Kind::shows:
      return "board";
    case Turn::Kind::explains:
      return "more";
    case Turn::Kind::helps:
      return "help";
    case Turn::Kind::ends:
      return "end";
    case Turn::Kind::refuses:
      return "refused";
  }
  return "";
}

std::string to_move(const rules::Position& p) {
  if (rules::is_checkmate(p)) return report::side_words(p.side_to_move()) + " is mated.";
  if (rules::is_stalemate(p)) return report::side_words(p.side_to_move()) + " is stalemated.";
  return report::side_words(p.side_to_move()) + " to move, move " +
         base::number(p.fullmove_number()) + ".";
}

// Twice the nodes of the answer before; false when it was stopped, or has thought enough.
bool deepens(audience::Responder& responder, int threads, const std::atomic<bool>& stop) {
  const std::uint64_t nodes = responder.effort();
  return nodes < most_nodes_between && responder.deepen(2 * nodes, threads, &stop);
}

}  // namespace

bool is_talked_to() {
  return ::isatty(STDIN_FILENO) == 1 && ::isatty(STDOUT_FILENO) == 1;
}

// One thread deepens the answer, twice the nodes each time, until it is stopped: whoever holds this
// leaves the responder alone.
class WeighDialogue::Thinking {
 public:
  Thinking(audience::Responder& responder, int threads) {
    const auto think = [this, &responder, threads](const std::stop_token&) {
      try {
        while (deepens(responder, threads, stop_)) {
        }
      } catch (const std::bad_alloc&) {  // it has thought enough
      }
    };
    threads_ = base::start_threads(1, think);
  }
  Thinking(const Thinking&) = delete;
  Thinking& operator=(const Thinking&) = delete;
  ~Thinking() { stop_ = true; }

 private:
  std::atomic<bool> stop_{false};
  std::vector<std::jthread> threads_;  // last: waited for first
};

WeighDialogue::WeighDialogue(audience::Conversation conversation, const TalkSettings& settings)
    : conversation_(std::move(conversation)),
      settings_(settings),
      looks_(looks_of(STDOUT_FILENO)),
      on_terminal_(is_talked_to() && !settings.json),
      interrupted_(catch_interrupts()) {}

WeighDialogue::~WeighDialogue() = default;

bool WeighDialogue::talk(const std::optional<Turn>& first,
                         const std::vector<audience::CalledMove>& refused) {
  bool any = first.has_value();
  if (on_terminal_) greet(!any);
  const rules::Position begin = conversation_.scene().position;
  if (first && !tell("", {.refused = refused}, *first, begin)) return true;
  while (!interrupted_) {
    if (on_terminal_ && settings_.nodes == 0 && responder_) {
      thinking_ = std::make_unique<Thinking>(*responder_, settings_.threads);
    }
    const auto line = read_line();
    thinking_.reset();
    if (!line) break;
    any = true;
    if (!answer(*line)) break;
  }
  return any || on_terminal_;
}

// Where the input ends the line of the prompt is ended here.
std::optional<std::string> WeighDialogue::read_line() {
  if (on_terminal_) {
    const rules::Position p = conversation_.scene().position;
    Output::get().text(base::number(p.fullmove_number()) +
                       (p.side_to_move() == rules::white ? ". " : "... "));
  }
  Output::get().flush();
  auto line = input_.wait(audience::longest_typed, interrupted_);
  if (!line && on_terminal_) Output::get().line("");
  return line;
}

bool WeighDialogue::answer(const std::string& line) {
  tell_change_of_mind();
  audience::Scene before = conversation_.scene();
  before.letters = settings_.letters;
  const Request request = audience::read_request(before, line);
  return tell(line, request, conversation_.take(request), read_in(before, request));
}

// `read`: the position that the moves which cannot be played were read in. False at the end.
bool WeighDialogue::tell(const std::string& line, const Request& request, const Turn& turn,
                         const rules::Position& read) {
  const bool with_board =
      turn.kind == Turn::Kind::shows || (on_terminal_ && turn.kind == Turn::Kind::asks);
  const std::size_t width = width_of_text(with_board);
  Rows rows;
  const auto say = [&](const std::string& text) {
    const Rows more = report::wrapped(base::visible(text), width);
    rows.insert(rows.end(), more.begin(), more.end());
  };
  for (const audience::CalledMove& move : request.refused) {
    say(move.text + ": " + report::refusal_words(read, move) + ".");
  }
  const auto add = [&rows](const Rows& more) { rows.insert(rows.end(), more.begin(), more.end()); };
  switch (turn.kind) {
    case Turn::Kind::nothing:
      return true;
    case Turn::Kind::ends:
      return false;
    case Turn::Kind::asks:
      if (!find(turn.question)) return false;
      add(report::answer_rows(told_, width));
      break;
    case Turn::Kind::shows:
      say(to_move(conversation_.shown()));
      break;
    case Turn::Kind::explains:
      add(report::explained_rows(told_, width));
      break;
    case Turn::Kind::helps:
      rows = help_rows();
      break;
    case Turn::Kind::refuses:
      if (const std::string why = why_refused(conversation_, turn, request); !why.empty()) say(why);
      break;
  }
  if (const rules::Move played = conversation_.played();
      played && request.kind == Request::Kind::go && turn.kind != Turn::Kind::refuses) {
    say("Played was " + report::numbered(conversation_.scene().position, played) + ".");
  }
  if (settings_.json) {
    put_json(line, turn, rows);
  } else {
    put(rows, with_board);
  }
  return true;
}

// Columns; beside the board what is left of them. Off the terminal a text is one row.
std::size_t WeighDialogue::width_of_text(bool with_board) const {
  if (!on_terminal_) return std::size_t{1} << 20;
  return with_board && looks_.width >= least_beside ? looks_.width - board_width - 1 : looks_.width;
}

// False when it was interrupted.
bool WeighDialogue::find(const Question& question) {
  const bool is_known = responder_ && responder_->question() == question;
  if (is_known && settings_.nodes > 0) return true;
  if (!is_known) {
    responder_ = std::make_unique<audience::Responder>(question, tell_fewer_threads);
  }
  if (settings_.nodes > 0) {
    if (!responder_->deepen(settings_.nodes, settings_.threads, &interrupted_)) return false;
  } else {
    sharpen();
  }
  told_ = responder_->response();
  opinion_ = responder_->opinion();
  log_detail(base::grouped(responder_->nodes()) + " positions searched");
  return !interrupted_;
}

// Twice the nodes each time, until the time is up.
void WeighDialogue::sharpen() {
  const std::atomic<bool>& over = catch_interrupts_or_stop_after(settings_.seconds);
  if (responder_->effort() == 0) (void)responder_->deepen(first_nodes, settings_.threads);
  while (deepens(*responder_, settings_.threads, over)) {
  }
  (void)catch_interrupts_or_stop_after(0);
}

// What was told last may be wrong by now.
void WeighDialogue::tell_change_of_mind() {
  if (!on_terminal_ || settings_.nodes > 0 || !responder_) return;
  const audience::Opinion now = responder_->opinion();
  if (!audience::changes(opinion_, now)) return;
  told_ = responder_->response();
  opinion_ = now;
  put(report::wrapped("On a longer look: " + report::changed_words(told_), looks_.width), false);
}

void WeighDialogue::greet(bool with_board) {
  Rows rows = report::wrapped(
      "Ask about a move, play a line, or: best, why, all, back, start, show, flip, help, quit.",
      looks_.width);
  rows.emplace_back("For finished games only.");
  put(rows, false);
  if (with_board) put({to_move(conversation_.shown())}, true);
}

// The board at the left of the text, where there is room.
void WeighDialogue::put(const Rows& rows, bool with_board) {
  Rows all;
  if (with_board) {
    all = report::board_rows(conversation_.shown(), conversation_.view(), conversation_.changed());
  }
  if (with_board && on_terminal_ && looks_.width >= least_beside) {
    all = report::beside(all, board_width, rows);
  } else {
    all.insert(all.end(), rows.begin(), rows.end());
  }
  for (const std::string& row : all) Output::get().line(row);
  Output::get().line("");
  if (!on_terminal_) Output::get().flush();
}

void WeighDialogue::put_json(const std::string& line, const Turn& turn, const Rows& rows) {
  base::Json object = base::Json::object();
  object.add("version", 1).add("line", line).add("type", name_of(turn.kind));
  object.add("fen", rules::to_fen(conversation_.shown())).add("text", base::join(rows, "\n"));
  if (turn.kind == Turn::Kind::asks) report::add_answer(object, told_);
  Output::get().text(base::to_json(object) + "\n");
  Output::get().flush();
}

}  // namespace kairos::cli
