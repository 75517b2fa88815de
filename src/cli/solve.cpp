// kairos solve: an EPD suite, each position searched with the same number of nodes.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <atomic>
#include <chrono>
#include <memory>

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/base/threads.hpp"
#include "kairos/puzzle/suite.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/search/searcher.hpp"

#include "command.hpp"
#include "interrupt.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
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

struct TimedAnswer {
  puzzle::SuiteAnswer given;
  double stable_seconds = 0;  // as its stable_nodes
};

TimedAnswer answer(const puzzle::SuitePosition& asked, const search::Limits& limits,
                   search::Searcher& searcher) {
  if (asked.fault) return {};
  searcher.clear();
  const auto begin = std::chrono::steady_clock::now();
  const search::Verdict verdict = searcher.search(asked.position, {}, limits);
  const std::chrono::duration<double> time = std::chrono::steady_clock::now() - begin;
  const puzzle::SuiteAnswer given = puzzle::answer_of(asked, verdict, limits.nodes);
  const double share = static_cast<double>(given.stable_nodes) /
                       static_cast<double>(std::max<std::uint64_t>(1, verdict.nodes));
  return {given, time.count() * share};
}

// Answers in the order of the suite, whoever works them out.
std::vector<TimedAnswer> answer_all(const std::vector<puzzle::SuitePosition>& suite,
                                    const Arguments& arguments, const std::atomic<bool>& stop) {
  std::vector<TimedAnswer> answers(suite.size());
  std::atomic<std::size_t> done{0};
  ProgressLine progress("positions");
  progress.update(0, suite.size());
  search::Limits limits;
  limits.nodes = arguments.nodes;
  limits.stop = &stop;
  base::share_out(
      suite.size(), arguments.threads,
      [&]() -> base::Worker {
        return [&, searcher = std::make_shared<search::Searcher>()](std::size_t i) {
          if (stop) return;
          answers[i] = answer(suite[i], limits, *searcher);
          progress.update(++done, suite.size());
        };
      },
      tell_fewer_threads);
  return answers;
}

// "+1.25" from the side to move, or "mate in 3".
std::string score_words(search::Score score) {
  const int mate = search::mate_moves(score);
  if (mate != 0)
    return mate > 0 ? "mate in " + base::number(mate) : "mated in " + base::number(-mate);
  return (score > 0 ? "+" : "") + base::fixed(score / 100.0, 2);
}

void print_failure(const std::string& file, const puzzle::SuitePosition& asked,
                   const puzzle::SuiteAnswer& given) {
  if (asked.fault) {
    Output::get().line("failed: " + base::describe(*asked.fault));
    return;
  }
  std::string text = "failed: " + file + ":" + std::to_string(asked.line) + ": ";
  if (!asked.id.empty()) text += asked.id + ": ";
  text += puzzle::asked_text(asked);
  if (given.played) {
    text += ", played " + rules::to_san(asked.position, given.played) + " (" +
            score_words(given.score) + ", depth " + base::number(given.depth) + ")";
  } else {
    text += ", but there is no legal move";
  }
  Output::get().line(text);
}

void print_json(const puzzle::SuitePosition& asked, const puzzle::SuiteAnswer& given) {
  base::Json object = base::Json::object();
  object.add("type", "position").add("line", asked.line).add("id", asked.id);
  object.add("solved", given.solved);
  if (asked.fault) {
    object.add("fault", base::describe(*asked.fault));
  } else {
    object.add("asked", puzzle::asked_text(asked));
  }
  if (given.played) {
    object.add("played", rules::to_san(asked.position, given.played));
    object.add("score", score_words(given.score)).add("depth", given.depth);
  }
  if (given.solved) {
    object.add("stable_nodes", given.stable_nodes).add("stable_depth", given.stable_depth);
  }
  Output::get().line(base::to_json(object));
}

void print(const std::vector<puzzle::SuitePosition>& suite, const std::vector<TimedAnswer>& answers,
           std::int64_t solved, const Arguments& arguments) {
  for (std::size_t i = 0; i < suite.size(); ++i) {
    if (arguments.json) {
      print_json(suite[i], answers[i].given);
    } else if (!answers[i].given.solved) {
      print_failure(arguments.suite, suite[i], answers[i].given);
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
void tell_speed(const std::vector<TimedAnswer>& answers) {
  std::vector<std::uint64_t> nodes;
  std::vector<double> seconds;
  for (const TimedAnswer& a : answers) {
    if (!a.given.solved) continue;
    nodes.push_back(a.given.stable_nodes);
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
  const auto read = puzzle::read_suite(arguments.suite);
  if (!read) {
    log_error(read.fault());
    return exit_unreadable;
  }
  const std::vector<puzzle::SuitePosition>& suite = *read;
  const std::atomic<bool>& stop = catch_interrupts();
  const std::vector<TimedAnswer> answers = answer_all(suite, arguments, stop);
  if (stop) return exit_interrupted;
  const std::int64_t solved = std::count_if(answers.begin(), answers.end(),
                                            [](const TimedAnswer& a) { return a.given.solved; });
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
