// kairos tally with several questions, at a terminal, and with the page that a browser shows.
#include <atomic>
#include <catch2/catch.hpp>
#include <thread>

#include "kairos/base/json.hpp"

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

// Made by hand, each with a plain answer.
constexpr const char* puzzles =
    "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; dm 1; id \"rank\";\n"
    "4k3/8/8/3q4/4P3/8/8/4K3 w - - bm exd5; id \"free\";\n"
    "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; id \"the first again\";\n"
    "7k/8/8/8/8/8/R7/1R4K1 w - - bm Ra7 Rb7; pv Rb7 Kg8 Ra8#; id \"ladder\";\n"
    "4k3/8/8/8/8/8/8/4K3 w - - id \"nothing to find\";\n";

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

struct Evening {
  Evening() { folder.write("p.epd", puzzles); }

  [[nodiscard]] Invocation words(const std::string& input, std::vector<std::string> more) const {
    std::vector<std::string> all = {"tally", "--epd", "p.epd", "--nodes", "2000"};
    all.insert(all.end(), more.begin(), more.end());
    return {all, folder.path(), input, {}};
  }
  [[nodiscard]] Outcome typed(const std::string& input, std::vector<std::string> more = {}) const {
    return run_at_terminal(words(input, std::move(more)));
  }
  [[nodiscard]] Outcome piped(const std::string& input, std::vector<std::string> more = {}) const {
    return run_program(words(input, std::move(more)));
  }

  TemporaryFolder folder;
};

}  // namespace

TEST_CASE("several questions are asked in a row, Enter shows the answer and goes on") {
  const Evening evening;
  const Outcome run = evening.typed(
      "anna: Rd8\nBert: Rd7\n\n"            // the answer is shown
      "Bert : Rd8, I meant\n\n"             // too late; on
      "ANNA: e takes d5\nbert: exd5\n\n\n"  // shown, and on
      "bert: Rb7 Ra8\n  Anna : Ra7\nn\n");  // on without showing: the last
  INFO(run.out);
  CHECK(run.exit_code == 0);
  CHECK(has(run.out, "Enter shows the answer, Enter again goes on; q and Enter ends"));
  CHECK(has(run.out, "Question 1 of 3"));
  CHECK(has(run.out, "Bert: too late, the answer is shown"));
  CHECK(has(run.out, "Question 2 of 3"));
  CHECK(has(run.out, "  1. anna: 1 point\r\n"));
  CHECK(has(run.out, "  1. anna: 2 points\r\n  2. bert: 1 point\r\n"));
  CHECK(has(run.out, "Question 3 of 3"));
  CHECK(has(run.out, "  1. anna, bert: 3 points\r\n"));
  CHECK_FALSE(has(run.out, "the first again"));

  const Outcome over = evening.piped("carl: Rd8\n");
  CHECK(over.exit_code == 0);
  CHECK(has(over.out, "all questions have been asked; for a new evening take away p.epd.evening"));
  CHECK(has(over.out, "  1. anna, bert: 3 points\n"));
}

TEST_CASE("an evening goes on where it was, and what was left open is asked again") {
  const Evening evening;
  CHECK(evening.typed("anna: Rd8\n\n\nanna: exd5\nq\n").exit_code == 0);
  const std::string kept = evening.folder.read("p.epd.evening");
  CHECK(has(kept, "\"id\":\"rank\""));
  CHECK_FALSE(has(kept, "\"id\":\"free\""));
  const Outcome next = evening.typed("bert: exd5\nr\nr\nq\n");
  INFO(next.out);
  CHECK(has(next.out, "going on behind 1 question of this evening, as p.epd.evening has them"));
  CHECK(has(next.out, "Question 2 of 3"));
  CHECK(has(next.out, "  1. anna, bert: 1 point\r\n"));
  // Lines that end end the question that is open, as with a single one.
  const Outcome last = evening.piped("carl: Ra7 Kg8 Rb8\n");
  CHECK(has(last.out, "Question 3 of 3: White to move\nladder: 1 person answered in 1 line\n"));
  CHECK(has(last.out, "Points:\n  1. anna, bert, carl: 1 point\n"));
}

TEST_CASE("with --json each question is an object, then the points") {
  const Evening evening;
  const Outcome run = evening.piped("anna: Rd8\nbert: h3\n", {"--json", "--score", "s"});
  const std::vector<std::string> lines = lines_of(run.out);
  REQUIRE(lines.size() == 2);
  const auto question = base::parse_json(lines[0]), points = base::parse_json(lines[1]);
  REQUIRE(question);
  REQUIRE(points);
  CHECK(*question->find("id")->text() == "rank");
  CHECK(question->find("late")->integer() == 0);
  CHECK(*points->find("type")->text() == "points");
  const base::Json::Array& places = *points->find("places")->elements();
  REQUIRE(places.size() == 1);
  CHECK(places[0].find("place")->integer() == 1);
  CHECK(places[0].find("points")->integer() == 1);
  CHECK(*places[0].find("names")->elements()->at(0).text() == "anna");
}

TEST_CASE("the page gives nothing away until Enter, and with --reveal from the start") {
  const Evening evening;
  const std::vector<std::string> one = {"--id", "free", "--page", "c.html"};
  CHECK(evening.piped("anna: exd5\nbert: Kd2\n", one).exit_code == 0);
  std::string page = evening.folder.read("c.html");
  CHECK(has(page, "<span class=\"move\">exd5</span>"));
  CHECK_FALSE(has(page, "the key"));
  CHECK_FALSE(has(page, "class=\"best\""));
  CHECK_FALSE(has(page, "anna"));

  CHECK(evening.typed("anna: exd5\nbert: Kd2\n\ncarl: exd5\n\n", one).exit_code == 0);
  page = evening.folder.read("c.html");
  CHECK(has(page, "the key: "));
  CHECK(has(page, "First with it: anna"));
  CHECK_FALSE(has(page, "carl"));

  std::vector<std::string> open = one;
  open.emplace_back("--reveal");
  CHECK(evening.piped("anna: exd5\nbert: Kd2\n", open).exit_code == 0);
  CHECK(evening.folder.read("c.html") == page);
}

TEST_CASE("a page is whole whenever it is read") {
  const Evening evening;
  std::atomic<bool> over{false};
  Outcome run;
  std::jthread writer([&] {
    run = run_shell(
        "for i in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20; do "
        "echo \"user$i: Rd$((i % 6 + 2))\"; sleep 0.1; done | "
        "kairos tally --epd p.epd --id rank --nodes 1000 --page c.html --reveal",
        evening.folder.path());
    over = true;
  });
  int reads = 0, wrong = 0;
  std::string before;
  while (!over) {
    const std::string page = evening.folder.read("c.html");
    if (page.empty() && before.empty()) continue;  // not there yet
    ++reads;
    if (!page.starts_with("<!DOCTYPE html>") || !page.ends_with("</html>\n")) ++wrong;
    before = page;
  }
  writer.join();
  CHECK(run.exit_code == 0);
  CHECK(reads > 0);
  CHECK(wrong == 0);
  CHECK(has(before + evening.folder.read("c.html"), "20 answers"));
}

TEST_CASE("tally writes a page over no other file, and says what it cannot write") {
  const Evening evening;
  const auto told = [&](const std::vector<std::string>& more) {
    return evening.piped("a: e4\n", more);
  };
  Outcome run = told({"--id", "free", "--page", "p.epd"});
  CHECK(run.exit_code == 2);
  CHECK(has(run.err, "p.epd is no page of a tally: name another file with --page"));
  CHECK(evening.folder.read("p.epd") == puzzles);
  run = told({"--id", "free", "--page", "nowhere/c.html"});
  CHECK(run.exit_code == 3);
  CHECK(has(run.err, "nowhere/c.html"));
  CHECK(told({"--id", "free", "--page", "."}).exit_code == 3);
  run = told({"--id", "free", "--reveal"});
  CHECK(run.exit_code == 2);
  CHECK(has(run.err, "--page"));
  run = told({"--id", "free", "--score", "s"});
  CHECK(run.exit_code == 2);
  CHECK(has(run.err, "--score goes with several questions, without --id"));
  evening.folder.write("s", "not a score");
  run = told({"--score", "s"});
  CHECK(run.exit_code == 3);
  CHECK(has(run.err, "s:1: not a score file"));
  CHECK(evening.folder.read("s") == "not a score");
  CHECK(told({"--score", "nowhere/s"}).exit_code == 3);
}

TEST_CASE("a page that can be written no more is told once, and the count goes on") {
  const Evening evening;
  const Outcome run = run_shell(
      "mkdir d; { while [ ! -e d/c.html ]; do sleep 0.05; done; rm -r d; echo anna: Rd8; "
      "echo bert: h3; } | kairos tally --epd p.epd --id rank --nodes 1000 --page d/c.html",
      evening.folder.path());
  CHECK(run.exit_code == 1);
  CHECK(has(run.out, "rank: 2 people answered in 2 lines"));
  CHECK(lines_of(run.err).size() == 1);
  CHECK(has(run.err, "d/c.html"));
}
