// kairos tally: many people's answers to one puzzle, as they type them: how many for each move,
// what is wrong with the wrong ones, who was first and who saw it all.
//
// Lines are counted as they come; each move that somebody names is judged in the background. Where
// standard output is a terminal (and the lines are not typed into the same one) the table is kept
// up to date; the last one is printed when the lines end.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <chrono>
#include <memory>
#include <unistd.h>

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/study/weigh.hpp"

#include "command.hpp"
#include "interrupt.hpp"
#include "judges.hpp"
#include "line_input.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "summary.hpp"
#include "tally_count.hpp"
#include "terminal.hpp"
#include "threads.hpp"

namespace kairos::cli {

namespace {

constexpr std::size_t shown_names = 5;
constexpr std::size_t shown_refused = 5;
constexpr std::size_t shown_plies = 6;
constexpr int redraw_every = 250;  // milliseconds

struct Arguments {
  std::string epd;
  std::string id;
  std::size_t top = 12;
  std::uint64_t nodes = 100'000;
  int threads = 0;
  bool hide = false;
  bool json = false;
};

// A row of the table: a move, its voices, and what is known of it so far.
struct Row {
  TallyCount::Votes votes;
  bool is_key = false;
  std::optional<study::Weighed> weighed;
};

class Tally {
 public:
  Tally(const AskedPuzzle& asked, const Arguments& arguments)
      : asked_(asked),
        arguments_(arguments),
        count_(asked),
        judges_(asked.puzzle.position, arguments.nodes, arguments.threads) {
    for (const rules::Move key : asked.keys) judges_.hand_in(key);
  }

  TallyCount::Hearing hear(std::string_view line) {
    TallyCount::Hearing hearing = count_.hear(line);
    if (hearing.is_new && !count_.is_key(hearing.move)) judges_.hand_in(hearing.move);
    return hearing;
  }

  void finish() { judges_.finish(); }
  [[nodiscard]] bool is_key(rules::Move move) const { return count_.is_key(move); }
  [[nodiscard]] std::string text(bool with_verdicts);
  [[nodiscard]] std::string json();

 private:
  std::vector<Row> rows();
  [[nodiscard]] std::vector<Row> bare_rows() const;
  [[nodiscard]] std::string verdict(const Row& row) const;
  [[nodiscard]] std::string opening() const;
  [[nodiscard]] std::string refused_text() const;

  const AskedPuzzle& asked_;
  const Arguments& arguments_;
  TallyCount count_;
  Judges judges_;
  std::map<std::uint16_t, study::Weighed> weighed_;  // by the move's bits
};

// Everything is measured by the key, which the puzzle's maker has proved or checked; so nothing is
// told before that is judged. Each move is weighed once: that takes a proof.
std::vector<Row> Tally::rows() {
  const auto judged = judges_.judged();
  std::optional<search::Score> best;
  for (const rules::Move key : asked_.keys) {
    const auto known = judged.find(key.raw());
    if (known == judged.end()) return bare_rows();
    best = std::max(best.value_or(known->second.score), known->second.score);
  }
  std::vector<Row> rows = bare_rows();
  for (Row& row : rows) {
    const rules::Move move = row.votes.move;
    const auto known = judged.find(move.raw());
    if (known == judged.end()) continue;
    const auto told = weighed_.find(move.raw());
    row.weighed = told != weighed_.end() ? told->second
                                         : study::weigh(asked_.puzzle.position, move, known->second,
                                                        *best, arguments_.nodes);
    if (told == weighed_.end()) weighed_.emplace(move.raw(), *row.weighed);
  }
  return rows;
}

std::vector<Row> Tally::bare_rows() const {
  std::vector<Row> rows;
  for (TallyCount::Votes& votes : count_.votes()) {
    const bool is_key = count_.is_key(votes.move);
    rows.push_back({std::move(votes), is_key, std::nullopt});
  }
  return rows;
}

// A try has the refutation that came with the puzzle: it was searched longer than is done here.
std::string Tally::verdict(const Row& row) const {
  if (!row.weighed) return "...";
  const rules::Position& p = asked_.puzzle.position;
  const std::string words = report::verdict_words(p, *row.weighed);
  if (row.is_key) return "the key: " + words;
  const puzzle::Try* const tried = find_try(asked_.puzzle.tries, row.votes.move);
  if (tried == nullptr) return words;
  const rules::Move reply = tried->refutation.front();
  const bool same = row.weighed->line.size() > 1 && row.weighed->line[1] == reply;
  if (same && !row.weighed->is_good) return words;
  const rules::Position after = p.after(row.votes.move);
  return "fails to " + report::numbered_line(after, tried->refutation, shown_plies);
}

std::string names_text(const TallyCount::Roll& roll, std::size_t most) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min(most, roll.first.size()); ++i) {
    const Person& person = roll.first[i];
    names.push_back(person.time.empty() ? person.name : person.name + " (" + person.time + ")");
  }
  std::string text = base::join(names, ", ");
  if (roll.count > names.size()) {
    text += " and " + base::grouped(roll.count - names.size()) + " more";
  }
  return text;
}

std::string Tally::opening() const {
  const TallyCount::Counts& c = count_.counts();
  std::string text = asked_.id + ": " + base::grouped(c.people) +
                     (c.people == 1 ? " person" : " people") + " answered in " +
                     counted(c.lines, "line");
  const auto add = [&text](std::uint64_t count, const char* words) {
    if (count > 0) text += ", " + base::grouped(count) + ' ' + words;
  };
  add(c.refused, "not playable");
  add(c.talk, "without a move");
  add(c.again, "again from the same");
  add(c.unreadable, "not read");
  add(c.too_many, "from more people than are kept");
  return text + "\n\n";
}

std::string Tally::refused_text() const {
  std::string text;
  const auto refused = count_.refused();
  for (std::size_t i = 0; i < std::min(shown_refused, refused.size()); ++i) {
    text += "  " + refused[i].text + " (" + base::grouped(refused[i].count) +
            "): " + refused[i].why + "\n";
  }
  if (refused.size() > shown_refused) {
    text += "  and " + base::grouped(refused.size() - shown_refused) + " others\n";
  }
  return text.empty() ? "" : "\nNot playable:\n" + text;
}

std::string Tally::text(bool with_verdicts) {
  std::string text = opening();
  const std::uint64_t people = std::max<std::uint64_t>(1, count_.counts().people);
  const std::vector<Row> all = with_verdicts ? rows() : bare_rows();
  std::size_t left_out = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Row& row = all[i];
    if (i >= arguments_.top && !(row.is_key && with_verdicts)) {
      ++left_out;
      continue;
    }
    const std::string san = rules::to_san(asked_.puzzle.position, row.votes.move);
    const std::string share =
        report::percent(static_cast<double>(row.votes.count) / static_cast<double>(people));
    text += "  " + report::fitted(san, 8) + report::fitted(base::grouped(row.votes.count), 8) +
            report::fitted(share, 7);
    text += (with_verdicts ? verdict(row) : "") + "\n";
  }
  if (left_out > 0) text += "  and " + base::grouped(left_out) + " other moves\n";
  text += refused_text();
  if (!with_verdicts) return text;
  const TallyCount::Roll &key = count_.with_key(), &whole = count_.with_solution();
  text += "\nFirst with the key: " + (key.count == 0 ? "nobody" : names_text(key, 1)) + "\n";
  if (asked_.puzzle.line.size() > 1) {
    text +=
        "The whole solution: " + (whole.count == 0 ? "nobody" : names_text(whole, shown_names)) +
        "\n";
  }
  return text;
}

base::Json json_of(const TallyCount::Roll& roll) {
  base::Json people = base::Json::array();
  for (const Person& person : roll.first) {
    base::Json object = base::Json::object();
    object.add("name", person.name).add("time", person.time);
    people.push(std::move(object));
  }
  base::Json object = base::Json::object();
  object.add("count", roll.count).add("first", std::move(people));
  return object;
}

std::string Tally::json() {
  const rules::Position& p = asked_.puzzle.position;
  base::Json moves = base::Json::array();
  for (const Row& row : rows()) {
    base::Json object = base::Json::object();
    object.add("move", rules::to_san(p, row.votes.move)).add("count", row.votes.count);
    object.add("key", row.is_key).add("first", row.votes.first.name);
    if (row.weighed) {
      object.add("verdict", verdict(row)).add("good", row.is_key || row.weighed->is_good);
      object.add("expectation", row.weighed->expectation);
    }
    moves.push(std::move(object));
  }
  base::Json refused = base::Json::array();
  for (const TallyCount::Refused& r : count_.refused()) {
    base::Json object = base::Json::object();
    object.add("text", r.text).add("why", r.why).add("count", r.count);
    refused.push(std::move(object));
  }
  const TallyCount::Counts& c = count_.counts();
  base::Json object = base::Json::object();
  object.add("version", 1).add("id", asked_.id).add("fen", rules::to_fen(p));
  object.add("lines", c.lines).add("people", c.people).add("again", c.again);
  object.add("not_playable", c.refused).add("talk", c.talk).add("not_read", c.unreadable);
  object.add("not_kept", c.too_many);
  object.add("moves", std::move(moves)).add("refused", std::move(refused));
  object.add("with_key", json_of(count_.with_key()));
  object.add("with_solution", json_of(count_.with_solution()));
  return base::to_json(object) + "\n";
}

// Typed by hand: each line is answered at once, or the table would run into what is typed.
std::string reply_to(const AskedPuzzle& asked, const Tally& tally,
                     const TallyCount::Hearing& hearing) {
  using Heard = TallyCount::Heard;
  switch (hearing.heard) {
    case Heard::counted:
      return "  " + hearing.name + ": " + rules::to_san(asked.puzzle.position, hearing.move) +
             (tally.is_key(hearing.move) ? ", the key" : "");
    case Heard::again:
      return "  " + hearing.name + " has answered before";
    case Heard::refused:
      return "  " + hearing.name + ": " + hearing.why;
    case Heard::talk:
      return "  " + hearing.name + ": no move in these words";
    case Heard::unreadable:
      return "  not read: a line is \"name: words\"";
    case Heard::too_many:
      return "  more people than are kept";
  }
  return "";
}

// Shows the table again when something has changed, but not more than some times a second.
class Display {
 public:
  Display(Tally& tally, const Arguments& arguments, bool by_hand)
      : tally_(tally), arguments_(arguments), on_(!by_hand && !arguments.json) {}

  void refresh() {
    const auto now = std::chrono::steady_clock::now();
    if (!on_ || !live_.is_live() || now - last_ < std::chrono::milliseconds(redraw_every)) return;
    last_ = now;
    live_.show(tally_.text(!arguments_.hide));
  }
  void clear() { live_.clear(); }

 private:
  Tally& tally_;
  const Arguments& arguments_;
  bool on_;
  LiveText live_;
  std::chrono::steady_clock::time_point last_;
};

void listen(const AskedPuzzle& asked, Tally& tally, Display& display, bool by_hand) {
  const std::atomic<bool>& stop = catch_interrupts();
  LineInput input;
  std::string line;
  while (!stop) {
    const LineInput::State state = input.next(line, longest_line, redraw_every);
    if (state == LineInput::State::ended) return;
    if (state == LineInput::State::line && !base::trim(line).empty()) {
      const TallyCount::Hearing hearing = tally.hear(line);
      if (by_hand) {
        Output::get().line(reply_to(asked, tally, hearing));
        Output::get().flush();
      }
    }
    display.refresh();
  }
}

ExitCode run_tally(const Arguments& arguments) {
  auto asked = find_puzzle(arguments.epd, arguments.id);
  if (!asked) return failed(asked.faults());
  if (asked->keys.empty()) {
    return failed({{base::Code::usage, "the position names no right move (bm or pv)", {}}});
  }
  const bool by_hand = ::isatty(STDIN_FILENO) == 1;
  Tally tally(*asked, arguments);
  Display display(tally, arguments, by_hand);
  listen(*asked, tally, display, by_hand);
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
  add_threads_option(command, arguments->threads);
  command.add_flag("--hide", arguments->hide, "While the lines come show the counts alone");
  command.add_flag("--json", arguments->json, "One JSON object, when the lines end");
  return {&command, [arguments] { return run_tally(*arguments); }};
}

}  // namespace kairos::cli
