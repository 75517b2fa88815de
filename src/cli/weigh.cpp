// kairos weigh: why not this move? Each move's verdict in words, with what refutes it.
//
// The moves are judged with few nodes first and with twice as many each time, so there is an answer
// at once that sharpens while one waits. Where standard output is a terminal every answer replaces
// the one before; elsewhere only the last is printed. Without moves on the command line, and where
// somebody sits before it, a conversation begins (weigh_dialogue.hpp).

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>

#include "kairos/audience/compare.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/comparison.hpp"
#include "kairos/rules/movegen.hpp"

#include "command.hpp"
#include "given_position.hpp"
#include "interrupt.hpp"
#include "letters_option.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "terminal.hpp"
#include "threads.hpp"
#include "weigh_dialogue.hpp"

namespace kairos::cli {

namespace {

constexpr std::uint64_t first_nodes = 20'000;  // a few hundredths of a second a move
constexpr double least_nodes = 1'000;          // with fewer a verdict is a guess

struct Arguments {
  PositionArguments place;
  std::vector<std::string> moves;
  bool all = false;
  double seconds = 1.2;  // an answer with its proofs within two, on two cores
  std::uint64_t nodes = 0;
  int threads = 0;
  bool json = false;
  int level = 0;  // 0: not asked for
};

// The moves asked about; none for --all.
base::Result<std::vector<audience::CalledMove>> asked_moves(const rules::Position& p,
                                                            const Arguments& arguments) {
  if (arguments.all) return std::vector<audience::CalledMove>{};
  return audience::called_moves(p, arguments.moves, arguments.place.letters);
}

// Those of them that can be played, or all there are.
std::vector<rules::Move> moves_to_weigh(const rules::Position& p,
                                        const std::vector<audience::CalledMove>& asked) {
  std::vector<rules::Move> moves;
  for (const audience::CalledMove& called : asked) {
    if (called.move) moves.push_back(called.move);
  }
  if (!asked.empty()) return moves;
  rules::MoveList legal;
  rules::legal_moves(p, legal);
  return {legal.begin(), legal.end()};
}

// One answer after another, each with twice the nodes, until time or nodes are used up.
void sharpen(audience::Comparer& comparer, const Arguments& arguments,
             const std::function<void()>& answered) {
  std::uint64_t nodes = arguments.nodes > 0 ? std::min(first_nodes, arguments.nodes) : first_nodes;
  comparer.deepen(nodes, arguments.threads);
  answered();
  const std::atomic<bool>& over =
      catch_interrupts_or_stop_after(arguments.nodes > 0 ? 0 : arguments.seconds);
  while (arguments.nodes == 0 || nodes < arguments.nodes) {
    const std::uint64_t before = comparer.nodes();
    nodes = arguments.nodes > 0 ? std::min(2 * nodes, arguments.nodes) : 2 * nodes;
    if (!comparer.deepen(nodes, arguments.threads, &over)) return;
    answered();
    // Mates that are found to the end: more nodes would not be used.
    if (comparer.nodes() - before < nodes / 2) return;
  }
}

base::Fault usage(std::string words) {
  return {base::Code::usage, std::move(words), {}};
}

// Lines in, answers out.
ExitCode run_conversation(Arguments arguments) {
  PositionArguments& where = arguments.place;
  if (!where.game.empty() && where.move.empty() && where.ply < 0) where.ply = 0;
  const auto place = find_position(where, Ended::accepted);
  if (!place) return failed(place.faults());
  if (arguments.level > 0)
    return failed({usage("--level goes with moves to weigh, or with --all")});
  audience::Conversation conversation(place->line, place->plies, !where.game.empty());
  conversation.begin_after(place->after);
  std::optional<audience::Turn> first;
  std::vector<audience::CalledMove> refused;
  if (arguments.all || !arguments.moves.empty()) {
    const auto asked = asked_moves(place->position, arguments);
    if (!asked) return failed(asked.faults());
    std::vector<rules::Move> moves;
    for (const audience::CalledMove& called : *asked) {
      called.move ? moves.push_back(called.move) : refused.push_back(called);
    }
    if (arguments.all || !moves.empty()) first = conversation.ask(std::move(moves));
  }
  WeighDialogue dialogue(std::move(conversation), {.seconds = arguments.seconds,
                                                   .nodes = arguments.nodes,
                                                   .threads = arguments.threads,
                                                   .letters = arguments.place.letters,
                                                   .json = arguments.json});
  if (!dialogue.talk(first, refused)) {
    return failed(
        {usage("name the moves to weigh, or ask for --all, or write questions on standard "
               "input")});
  }
  return catch_interrupts() ? exit_interrupted : exit_done;
}

ExitCode run_weigh(const Arguments& arguments) {
  if (!arguments.json) Output::get().set_letters(arguments.place.letters);
  const bool asks_for_moves = arguments.all || !arguments.moves.empty();
  if (!asks_for_moves || (is_talked_to() && !arguments.json)) return run_conversation(arguments);
  const auto place = find_position(arguments.place);
  if (!place) return failed(place.faults());
  const auto asked = asked_moves(place->position, arguments);
  if (!asked) return failed(asked.faults());
  using Best = audience::Comparer::Best;
  audience::Comparer comparer(
      place->position, place->earlier, moves_to_weigh(place->position, *asked), place->tries,
      arguments.all ? Best::among_the_moves : Best::search, tell_fewer_threads);
  LiveText live;
  const bool shows = live.is_live() && !arguments.json;
  std::string shown;
  sharpen(comparer, arguments, [&] {
    if (!shows) return;
    shown = report::comparison_text(comparer.comparison(*asked), true);
    live.show(shown);
  });
  live.clear();
  if (!shows) {
    audience::Comparison comparison = comparer.comparison(*asked);
    if (arguments.level > 0) {
      comparison.level =
          audience::level_of(comparison, place->earlier, place->before, arguments.level);
    }
    shown = arguments.json ? report::comparison_json(comparison)
                           : report::comparison_text(comparison, false);
  }
  Output::get().text(shown);
  log_detail(base::grouped(comparer.nodes()) + " positions searched");
  return catch_interrupts() ? exit_interrupted : exit_done;
}

}  // namespace

Command register_weigh(CLI::App& program) {
  CLI::App& command = add_command(
      program,
      {.name = "weigh",
       .purpose = "Why not this move? The verdict on each, what refutes it; or a conversation",
       .examples = "  kairos weigh --epd puzzles.epd --id g3-m21w Rd8+ \"rook a1\"\n"
                   "  kairos weigh --game games.pgn --ply 3 Ke7 \"knight c6\"\n"
                   "  kairos weigh --game games.pgn --move 2b --after Ke7 < questions.txt\n"
                   "  kairos weigh --fen \"6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1\" --all\n",
       .studies = true});
  auto arguments = std::make_shared<Arguments>();
  add_position_options(command, arguments->place);
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
  add_letters_option(command, arguments->place.letters);
  CLI::Option* json =
      command.add_flag("--json", arguments->json,
                       "JSON: one object when done, or one for each line of a conversation");
  add_number(command, "--level", arguments->level,
             "With --json: the share of players of this rating who would play each move",
             {.least = least_level, .most = most_level})
      ->type_name("R")
      ->needs(json);
  return {&command, [arguments] { return run_weigh(*arguments); }};
}

}  // namespace kairos::cli
