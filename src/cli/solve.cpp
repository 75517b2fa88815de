// kairos solve: an EPD suite, each position searched with the same number of nodes.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <atomic>
#include <chrono>
#include <memory>

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/pgn/epd.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/search/mate.hpp"
#include "kairos/search/searcher.hpp"

#include "command.hpp"
#include "interrupt.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "position_lines.hpp"
#include "progress_line.hpp"
#include "threads.hpp"

namespace kairos::cli {

namespace {

struct Arguments {
  std::string suite;
  std::uint64_t nodes = 200'000;
  int threads = 0;
  std::int64_t expect = -1;
  bool json = false;
};

// One line of the suite: what is asked, or why it asks nothing.
struct Question {
  std::uint64_t line = 0;
  std::string id;
  rules::Position position = rules::Position::start();
  std::vector<rules::Move> best;   // bm
  std::vector<rules::Move> avoid;  // am
  int mate = 0;                    // dm, in full moves; asked only where bm and am are not
  std::optional<base::Fault> fault;
};

struct Answer {
  rules::Move played;
  search::Score score = 0;
  int depth = 0;
  bool solved = false;
  // When the search settled on a right answer for good, of a solved position.
  std::uint64_t stable_nodes = 0;
  int stable_depth = 0;
  double stable_seconds = 0;
};

base::Result<Question> read_question(std::string_view line) {
  const auto epd = pgn::parse_epd(line);
  if (!epd) return epd.faults();
  Question question;
  question.id = epd->text("id");
  question.position = epd->position;
  for (const auto& [opcode, moves] :
       {std::pair("bm", &question.best), std::pair("am", &question.avoid)}) {
    if (epd->find(opcode) == nullptr) continue;
    auto read = pgn::epd_moves(*epd, opcode);
    if (!read) return std::move(read).faults();
    *moves = *read;
  }
  question.mate = static_cast<int>(base::to_integer(epd->text("dm")).value_or(0));
  if (question.best.empty() && question.avoid.empty() && question.mate <= 0) {
    return base::Fault{base::Code::epd_operation, "the line has no bm, am or dm", {}};
  }
  return question;
}

base::Result<std::vector<Question>> read_suite(const std::string& file) {
  auto lines = PositionLines::open(file, PositionLines::Use::kept);
  if (!lines) return std::move(lines).faults();
  std::vector<Question> suite;
  while (const auto line = lines->next()) {
    Question question;
    if (auto read = lines->make(*line, read_question)) {
      question = std::move(*read);
    } else {
      question.fault = read.fault();
    }
    question.line = line->number;
    suite.push_back(std::move(question));
  }
  if (lines->failure()) return *lines->failure();
  if (suite.empty()) return base::Fault{base::Code::file_empty, "", {.file = file}};
  return suite;
}

bool asks_for_mate(const Question& question) {
  return question.best.empty() && question.avoid.empty();
}

// Whether a move, or for dm the score, is what the position asks for.
bool is_right(const Question& question, rules::Move move, search::Score score) {
  const auto holds = [move](const auto& moves) {
    return std::find(moves.begin(), moves.end(), move) != moves.end();
  };
  if (!question.best.empty() && !holds(question.best)) return false;
  if (!question.avoid.empty() && holds(question.avoid)) return false;
  if (!asks_for_mate(question)) return true;
  const int found = search::mate_moves(score);
  return found > 0 && found <= question.mate;
}

// The last iterations that were right without a break begin at the stable solution; an answer that
// came with the last nodes, or from the mate prover, is stable at the end.
void find_stable(const Question& question, const search::Verdict& verdict, double seconds,
                 Answer& given) {
  given.stable_nodes = verdict.nodes;
  given.stable_depth = verdict.depth;
  const auto& history = verdict.history;
  for (auto i = history.rbegin(); i != history.rend() && is_right(question, i->best, i->score);
       ++i) {
    given.stable_nodes = i->nodes;
    given.stable_depth = i->depth;
  }
  const double share = static_cast<double>(given.stable_nodes) /
                       static_cast<double>(std::max<std::uint64_t>(1, verdict.nodes));
  given.stable_seconds = seconds * share;
}

Answer answer(const Question& question, const search::Limits& limits, search::Searcher& searcher) {
  if (question.fault) return {};
  searcher.clear();
  const auto begin = std::chrono::steady_clock::now();
  const search::Verdict verdict = searcher.search(question.position, {}, limits);
  if (verdict.lines.empty()) return {};  // mate or stalemate: there is no move to find
  const std::chrono::duration<double> time = std::chrono::steady_clock::now() - begin;
  const search::Line& best = verdict.lines.front();
  Answer given{.played = best.moves.front(), .score = best.score, .depth = verdict.depth};
  given.solved = is_right(question, given.played, given.score) ||
                 (asks_for_mate(question) &&
                  search::prove_mate(question.position, question.mate, limits.nodes).has_value());
  if (given.solved) find_stable(question, verdict, time.count(), given);
  return given;
}

// Answers in the order of the suite, whoever works them out.
std::vector<Answer> answer_all(const std::vector<Question>& suite, const Arguments& arguments,
                               const std::atomic<bool>& stop) {
  std::vector<Answer> answers(suite.size());
  std::atomic<std::size_t> done{0};
  ProgressLine progress("positions");
  progress.update(0, suite.size());
  search::Limits limits;
  limits.nodes = arguments.nodes;
  limits.stop = &stop;
  share_out(suite.size(), arguments.threads, [&]() -> Worker {
    return [&, searcher = std::make_shared<search::Searcher>()](std::size_t i) {
      if (stop) return;
      answers[i] = answer(suite[i], limits, *searcher);
      progress.update(++done, suite.size());
    };
  });
  return answers;
}

std::string asked_words(const Question& question) {
  std::vector<std::string> parts;
  const auto add = [&](const char* opcode, const std::vector<rules::Move>& moves) {
    if (moves.empty()) return;
    parts.emplace_back(opcode);
    for (const rules::Move move : moves) parts.push_back(rules::to_san(question.position, move));
  };
  add("bm", question.best);
  add("am", question.avoid);
  if (parts.empty()) parts.push_back("dm " + base::number(question.mate));
  return base::join(parts, " ");
}

// "+1.25" from the side to move, or "mate in 3".
std::string score_words(search::Score score) {
  const int mate = search::mate_moves(score);
  if (mate != 0)
    return mate > 0 ? "mate in " + base::number(mate) : "mated in " + base::number(-mate);
  return (score > 0 ? "+" : "") + base::fixed(score / 100.0, 2);
}

void print_failure(const std::string& file, const Question& question, const Answer& given) {
  if (question.fault) {
    Output::get().line("failed: " + base::describe(*question.fault));
    return;
  }
  std::string text = "failed: " + file + ":" + std::to_string(question.line) + ": ";
  if (!question.id.empty()) text += question.id + ": ";
  text += asked_words(question);
  if (given.played) {
    text += ", played " + rules::to_san(question.position, given.played) + " (" +
            score_words(given.score) + ", depth " + base::number(given.depth) + ")";
  } else {
    text += ", but there is no legal move";
  }
  Output::get().line(text);
}

void print_json(const Question& question, const Answer& given) {
  base::Json object = base::Json::object();
  object.add("type", "position").add("line", question.line).add("id", question.id);
  object.add("solved", given.solved);
  if (question.fault) {
    object.add("fault", base::describe(*question.fault));
  } else {
    object.add("asked", asked_words(question));
  }
  if (given.played) {
    object.add("played", rules::to_san(question.position, given.played));
    object.add("score", score_words(given.score)).add("depth", given.depth);
  }
  if (given.solved) {
    object.add("stable_nodes", given.stable_nodes).add("stable_depth", given.stable_depth);
  }
  Output::get().line(base::to_json(object));
}

void print(const std::vector<Question>& suite, const std::vector<Answer>& answers,
           std::int64_t solved, const Arguments& arguments) {
  for (std::size_t i = 0; i < suite.size(); ++i) {
    if (arguments.json) {
      print_json(suite[i], answers[i]);
    } else if (!answers[i].solved) {
      print_failure(arguments.suite, suite[i], answers[i]);
    }
  }
  if (arguments.json) {
    base::Json total = base::Json::object();
    total.add("type", "total").add("solved", solved).add("positions", suite.size());
    Output::get().line(base::to_json(total));
  } else {
    Output::get().line("solved " + base::number(solved) + " of " + std::to_string(suite.size()));
  }
}

// What is in the middle of the solved positions: how soon the search stood by its answer. Told
// beside the results, because seconds are not the same twice.
void tell_speed(const std::vector<Answer>& answers) {
  std::vector<std::uint64_t> nodes;
  std::vector<double> seconds;
  for (const Answer& a : answers) {
    if (!a.solved) continue;
    nodes.push_back(a.stable_nodes);
    seconds.push_back(a.stable_seconds);
  }
  if (nodes.empty()) return;
  const auto middle_of = [](auto& values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
  };
  log_detail("half of those solved were so for good within " + std::to_string(middle_of(nodes)) +
             " nodes and " + base::fixed(middle_of(seconds), 3) + " s");
}

ExitCode run_solve(const Arguments& arguments) {
  const auto read = read_suite(arguments.suite);
  if (!read) {
    log_error(read.fault());
    return exit_unreadable;
  }
  const std::vector<Question>& suite = *read;
  const std::atomic<bool>& stop = catch_interrupts();
  const std::vector<Answer> answers = answer_all(suite, arguments, stop);
  if (stop) return exit_interrupted;
  const std::int64_t solved =
      std::count_if(answers.begin(), answers.end(), [](const Answer& a) { return a.solved; });
  print(suite, answers, solved, arguments);
  tell_speed(answers);
  const std::int64_t expected =
      arguments.expect >= 0 ? arguments.expect : static_cast<std::int64_t>(suite.size());
  return solved >= expected ? exit_done : exit_not_held;
}

}  // namespace

Command register_solve(CLI::App& program) {
  CLI::App& command =
      add_command(program, {.name = "solve",
                            .purpose = "Solve an EPD suite (bm, am, dm) and print the score",
                            .examples = "  kairos solve tests/data/epd/mates.epd\n"
                                        "  kairos solve SUITE.epd --nodes 1000000 --expect 90\n",
                            .studies = true});
  auto arguments = std::make_shared<Arguments>();
  command.add_option("SUITE", arguments->suite, "EPD file; - for standard input")->required();
  add_number(command, "--nodes", arguments->nodes, "Nodes searched in each position",
             {.least = 1, .most = most_nodes, .unit = "nodes"})
      ->type_name("N")
      ->default_str(plain_digits(static_cast<double>(arguments->nodes)));
  add_threads_option(command, arguments->threads);
  add_number(command, "--expect", arguments->expect, "Exit with 1 when fewer positions are solved",
             {.least = 0, .most = 1'000'000'000, .unit = "positions"})
      ->type_name("N")
      ->default_str("all");
  command.add_flag("--json", arguments->json, "One JSON object a line, for each position");
  return {&command, [arguments] { return run_solve(*arguments); }};
}

}  // namespace kairos::cli
