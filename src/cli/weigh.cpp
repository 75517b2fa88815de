// kairos weigh: why not this move? Each move's verdict in words, with what refutes it.
//
// The moves are judged with few nodes first and with twice as many each time, so there is an answer
// at once that sharpens while one waits. Where standard output is a terminal every answer replaces
// the one before; elsewhere only the last is printed.
#include "kairos/study/weigh.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>

#include "kairos/audience/typed.hpp"
#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "command.hpp"
#include "interrupt.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "place.hpp"
#include "scales.hpp"
#include "terminal.hpp"
#include "threads.hpp"

namespace kairos::cli {

namespace {

constexpr std::uint64_t first_nodes = 20'000;  // a few hundredths of a second a move
constexpr double least_nodes = 1'000;          // with fewer a verdict is a guess
constexpr std::size_t shown_plies = 10;

struct Arguments {
  PlaceArguments place;
  std::vector<std::string> moves;
  bool all = false;
  double seconds = 1.2;  // an answer with its proofs within two, on two cores
  std::uint64_t nodes = 0;
  int threads = 0;
  bool json = false;
};

// What was asked about, in that order: a move, or why it is none.
struct Asked {
  std::vector<audience::TypedMove> typed;
  bool all = false;
};

bool is_legal_for_the_other(const rules::Position& p, const std::string& text) {
  if (p.in_check()) return false;
  return static_cast<bool>(rules::read_san(p.after(rules::null_move), text).move);
}

std::string refusal(const rules::Position& p, const audience::TypedMove& typed) {
  std::string text = std::string(base::words(typed.problem)) + ": " + typed.why;
  if (is_legal_for_the_other(p, typed.text)) {
    text += " (" + report::side_words(p.side_to_move()) + " is to move)";
  }
  return text;
}

base::Result<Asked> asked_moves(const rules::Position& p, const Arguments& arguments) {
  Asked asked;
  asked.all = arguments.all;
  if (arguments.all) {
    rules::MoveList legal;
    rules::legal_moves(p, legal);
    for (const rules::Move move : legal) asked.typed.push_back({move, {}, {}, {}});
    return asked;
  }
  if (arguments.moves.empty()) {
    return base::Fault{base::Code::usage, "name the moves to weigh, or ask for --all", {}};
  }
  // "rook" "e4" is one move, "Nf3" "rook" "e4" are two: what is a phrase by itself ends one.
  std::string text;
  for (const std::string& word : arguments.moves) {
    const audience::TypedMove first = audience::read_typed_moves(p, word).front();
    const bool ends = first.move || first.problem != base::Code::not_a_move;
    text += word + (ends ? " ; " : " ");
  }
  for (audience::TypedMove& typed : audience::read_typed_moves(p, text)) {
    if (!typed.move && typed.problem == base::Code::not_a_move) {
      return base::Fault{base::Code::usage, "no move to weigh in these words", {}};
    }
    const auto is_same = [&typed](const audience::TypedMove& t) { return t.move == typed.move; };
    if (typed.move && std::any_of(asked.typed.begin(), asked.typed.end(), is_same)) continue;
    asked.typed.push_back(std::move(typed));
  }
  return asked;
}

// What is told: the position, the best move, and the moves asked about.
struct Answer {
  const Place& place;
  const Asked& asked;
  study::Weighed best;
  std::vector<study::Weighed> weighed;  // of the legal ones among those asked
};

Answer answer_of(const Place& place, const Asked& asked, const Scales& scales) {
  Answer answer{place, asked, {}, scales.weighed()};
  const rules::Move best = scales.best_move();
  const auto known = std::find_if(answer.weighed.begin(), answer.weighed.end(),
                                  [best](const study::Weighed& w) { return w.move == best; });
  answer.best = known != answer.weighed.end() ? *known : scales.weighed_best();
  if (asked.all) {
    std::stable_sort(answer.weighed.begin(), answer.weighed.end(),
                     [](const auto& a, const auto& b) { return a.score > b.score; });
  }
  return answer;
}

// "+1.20, 76 % for White": the score is White's, the expectation the mover's.
std::string worth(const rules::Position& p, const study::Weighed& w) {
  const rules::Color side = p.side_to_move();
  return report::score_text(report::from_white(w.score, side)) + ", " +
         report::percent(w.expectation) + " for " + report::side_words(side);
}

std::string told(const rules::Position& p, const study::Weighed& w, bool with_line) {
  std::string text =
      report::numbered(p, w.move) + " " + report::verdict_words(p, w) + " (" + worth(p, w) + ")\n";
  if (with_line) text += "    " + report::numbered_line(p, w.line, shown_plies) + "\n";
  return text;
}

// All legal moves in a table, the others each with its line.
std::string text_of(const Answer& answer, bool with_board) {
  const rules::Position& p = answer.place.position;
  std::string text;
  if (with_board) {
    for (const std::string& row : report::board_rows(p, p.side_to_move())) text += row + "\n";
    text += "\n";
  }
  if (answer.asked.all) {
    for (const study::Weighed& w : answer.weighed) text += told(p, w, false);
    return text;
  }
  std::size_t next = 0;
  bool best_asked = false;
  for (const audience::TypedMove& typed : answer.asked.typed) {
    if (typed.move) {
      const study::Weighed& w = answer.weighed[next++];
      best_asked = best_asked || w.move == answer.best.move;
      text += told(p, w, true);
    } else {
      text += typed.text + ": " + refusal(p, typed) + "\n";
    }
  }
  if (!best_asked) text += "best: " + told(p, answer.best, true);
  return text;
}

base::Json json_of(const rules::Position& p, const study::Weighed& w) {
  base::Json line = base::Json::array();
  for (const std::string& san : rules::to_san(p, w.line)) line.push(san);
  base::Json object = base::Json::object();
  object.add("move", rules::to_san(p, w.move))
      .add("verdict", report::verdict_words(p, w))
      .add("good", w.is_good);
  object.add("expectation", w.expectation).add("cost", w.cost);
  object.add("score", report::score_text(report::from_white(w.score, p.side_to_move())));
  object.add("line", std::move(line));
  return object;
}

std::string json_text(const Answer& answer) {
  const rules::Position& p = answer.place.position;
  base::Json moves = base::Json::array();
  for (const study::Weighed& w : answer.weighed) moves.push(json_of(p, w));
  base::Json refused = base::Json::array();
  for (const audience::TypedMove& typed : answer.asked.typed) {
    if (typed.move) continue;
    base::Json object = base::Json::object();
    object.add("text", typed.text).add("why", refusal(p, typed));
    refused.push(std::move(object));
  }
  base::Json object = base::Json::object();
  object.add("version", 1).add("fen", rules::to_fen(p)).add("best", json_of(p, answer.best));
  object.add("moves", std::move(moves)).add("refused", std::move(refused));
  return base::to_json(object) + "\n";
}

// One answer after another, each with twice the nodes, until time or nodes are used up.
void sharpen(Scales& scales, const Arguments& arguments, const std::function<void()>& answered) {
  std::uint64_t nodes = arguments.nodes > 0 ? std::min(first_nodes, arguments.nodes) : first_nodes;
  scales.deepen(nodes, arguments.threads);
  answered();
  const std::atomic<bool>& over =
      catch_interrupts_or_stop_after(arguments.nodes > 0 ? 0 : arguments.seconds);
  while (arguments.nodes == 0 || nodes < arguments.nodes) {
    const std::uint64_t before = scales.nodes();
    nodes = arguments.nodes > 0 ? std::min(2 * nodes, arguments.nodes) : 2 * nodes;
    if (!scales.deepen(nodes, arguments.threads, &over)) return;
    answered();
    // Mates that are found to the end: more nodes would not be used.
    if (scales.nodes() - before < nodes / 2) return;
  }
}

ExitCode run_weigh(const Arguments& arguments) {
  const auto place = find_place(arguments.place);
  if (!place) return failed(place.faults());
  const auto asked = asked_moves(place->position, arguments);
  if (!asked) return failed(asked.faults());
  Scales scales(place->position, place->earlier, asked->typed.size(),
                arguments.all ? Scales::Best::among_the_moves : Scales::Best::search);
  for (const audience::TypedMove& typed : asked->typed) {
    if (!typed.move) continue;
    const puzzle::Try* const tried = find_try(place->tries, typed.move);
    scales.add(typed.move, tried == nullptr ? std::vector<rules::Move>{} : tried->refutation);
  }
  LiveText live;
  const bool shows = live.is_live() && !arguments.json;
  std::string shown;
  sharpen(scales, arguments, [&] {
    if (!shows) return;
    shown = text_of(answer_of(*place, *asked, scales), true);
    live.show(shown);
  });
  live.clear();
  if (!shows) {
    const Answer answer = answer_of(*place, *asked, scales);
    shown = arguments.json ? json_text(answer) : text_of(answer, false);
  }
  Output::get().text(shown);
  log_detail(base::grouped(scales.nodes()) + " positions searched");
  return catch_interrupts() ? exit_interrupted : exit_done;
}

}  // namespace

Command register_weigh(CLI::App& program) {
  CLI::App& command = add_command(
      program,
      {.name = "weigh",
       .purpose = "Why not this move? The verdict on each, and what refutes it",
       .examples = "  kairos weigh --epd puzzles.epd --id g3-m21w Rd8+ \"rook a1\"\n"
                   "  kairos weigh --game games.pgn --ply 3 Ke7 \"knight c6\"\n"
                   "  kairos weigh --fen \"6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1\" --all\n",
       .studies = true});
  auto arguments = std::make_shared<Arguments>();
  add_place_options(command, arguments->place);
  CLI::Option* moves = command.add_option(
      "MOVE", arguments->moves, "Moves as people write them: Nf3, e2e4, \"rook e4\", castles");
  command.add_flag("--all", arguments->all, "Rank all legal moves")->excludes(moves);
  add_number(command, "--seconds", arguments->seconds, "Go on so long; Ctrl-C ends it sooner",
             {.least = 0.05, .most = 86'400, .unit = "seconds"})
      ->type_name("S")
      ->default_str(plain_digits(arguments->seconds));
  add_number(command, "--nodes", arguments->nodes,
             "Instead of --seconds: up to so many for each move, the same answer every time",
             {.least = least_nodes, .most = most_nodes, .unit = "nodes"})
      ->type_name("N");
  add_threads_option(command, arguments->threads);
  command.add_flag("--json", arguments->json, "One JSON object, when done");
  return {&command, [arguments] { return run_weigh(*arguments); }};
}

}  // namespace kairos::cli
