// The program on a pipe, on a pseudo-terminal, and when its reader goes away.
#include <catch2/catch.hpp>

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos::test;

namespace {

constexpr const char* escape = "\x1b[";

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// Long enough that progress is drawn on a terminal.
Invocation long_work() {
  return {{"solve", KAIROS_TEST_DIR "/data/epd/long_work.epd", "--nodes", "300000"}, ".", "", {}};
}

}  // namespace

TEST_CASE("errors are coloured on a terminal and nowhere else") {
  Invocation bad{{"check", "missing.pgn"}, ".", "", {{"TERM", "xterm"}}};
  CHECK(holds(run_on_terminal(bad).out, escape));
  CHECK_FALSE(holds(run_program(bad).err, escape));
  CHECK(run_program(bad).err.starts_with("error: missing.pgn"));

  SECTION("NO_COLOR turns colours off") {
    bad.environment.emplace_back("NO_COLOR", "1");
    const std::string text = run_on_terminal(bad).out;
    CHECK_FALSE(holds(text, "\x1b[31m"));
    CHECK(holds(text, "error: missing.pgn"));
  }
  SECTION("a dumb terminal gets plain text") {
    bad.environment = {{"TERM", "dumb"}};
    CHECK_FALSE(holds(run_on_terminal(bad).out, escape));
  }
}

TEST_CASE("progress is one line drawn over on a terminal, and never in the way of results") {
  Invocation work = long_work();
  work.environment = {{"TERM", "xterm"}};
  const Outcome terminal = run_on_terminal(work);
  CHECK(holds(terminal.out, "\r\x1b[K"));
  CHECK(holds(terminal.out, " positions"));
  // The last thing drawn is taken away before the result.
  CHECK(holds(terminal.out, "\r\x1b[Ksolved ") != holds(terminal.out, "failed: "));
  const Outcome pipe = run_program(work);
  CHECK_FALSE(holds(pipe.err, "\r"));
  CHECK_FALSE(holds(pipe.out, escape));
  CHECK(holds(pipe.out, "solved "));
}

TEST_CASE("--quiet draws no progress") {
  Invocation work = long_work();
  work.environment = {{"TERM", "xterm"}};
  work.arguments.emplace_back("--quiet");
  CHECK_FALSE(holds(run_on_terminal(work).out, "positions"));
}

TEST_CASE("on a terminal a single game is told in brief, elsewhere and of several not") {
  TemporaryFolder folder;
  const std::string game =
      "[White \"Amber\"]\n[Black \"Birch\"]\n[Result \"1-0\"]\n\n"
      "1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0\n\n";
  folder.write("one.pgn", game);
  folder.write("two.pgn", game + "[White \"Cedar\"]\n\n1. e4 e5 2. Nf3 *\n");
  const auto scan = [&folder](const std::string& file) {
    return Invocation{
        {"scan", file, "-o", "out-" + file, "--verify-nodes", "20000"}, folder.path(), "", {}};
  };
  const std::string told = "Move 3, Black: swing";
  const std::string one = run_on_terminal(scan("one.pgn")).out;
  CHECK(holds(one, "Amber - Birch, 1-0\r\n"));
  CHECK(holds(one, told));
  CHECK(holds(folder.read("out-one.pgn/report.txt"), told));
  CHECK_FALSE(holds(run_on_terminal(scan("two.pgn")).out, told));
  CHECK(holds(folder.read("out-two.pgn/report.txt"), told));
  CHECK_FALSE(holds(run_program(scan("one.pgn")).out, told));
}

TEST_CASE("the same results come out on a pipe and on a terminal") {
  const Invocation counts{{"perft", "3", "--divide"}, ".", "", {}};
  std::string terminal = run_on_terminal(counts).out;
  std::erase(terminal, '\r');
  CHECK(terminal == run_program(counts).out);
}

TEST_CASE("when the reader of the pipe goes away the program ends quietly") {
  TemporaryFolder folder;
  std::string games;  // their lines are more than a pipe holds
  for (int i = 0; i < 3'000; ++i) games += "[Event \"E\"]\n\n1. e4 e5 2. Nf3 *\n\n";
  folder.write("many.pgn", games);
  const Outcome outcome = run_shell(
      "(kairos check --final-fen --quiet many.pgn; echo code $? >&2) | head -n 1", folder.path());
  CHECK(lines_of(outcome.out).size() == 1);
  CHECK(outcome.err == "code 0\n");
}
