// Hostile names of files and players, from outside: what reaches a terminal, a log, a report.
#include <algorithm>
#include <catch2/catch.hpp>

#include "kairos/base/foreign.hpp"
#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"

#include "progress_line.hpp"
#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

using Words = std::vector<std::string>;

// A file's name that would paint the line red, begin another one and turn what follows; and how it
// is shown.
const std::string file = "r\x1b[31m\nd\xE2\x80\xAE.pgn";
const std::string shown = "r\\x1b[31m\\nd\\u202e.pgn";

// A name that ends with zero-width and turning characters; Hebrew letters for the opponent.
const std::string white =
    "Ada\xE2\x80\x8B \xE2\x80\xAE"
    "Rosin\xC2\x9B[2J";
const std::string hebrew = "\xD7\x90\xD7\x91\xD7\x92";

std::string games() {
  return "[Event \"Club\xE2\x80\xAE\"]\n[White \"" + white + "\"]\n[Black \"" + hebrew +
         "\"]\n[Result \"1-0\"]\n\n1. e4 e5 2. Qh5 Ke7 3. Qxe5# 1-0\n\n"
         "[White \"A\"]\n[Black \"B\"]\n\n1. e4 e5 2. Kf5 {\xE2\x80\xAE\xC2\x9B[2J} *\n";
}

// Whether a text does anything to a terminal but end lines. `marks`: isolation is no harm there.
bool does_harm(std::string_view text, bool marks = false) {
  while (!text.empty()) {
    const base::Character c = base::first_character(text);
    const bool is_mark = marks && (c.point == 0x2068 || c.point == 0x2069);
    if (!c.point || (c.point != U'\n' && base::is_control(*c.point))) return true;
    if (base::is_hidden(*c.point) && !is_mark) return true;
    text.remove_prefix(c.size);
  }
  return false;
}

struct Stand {
  Stand() {
    folder.write(file, games());
    folder.write(file + ".epd",
                 "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; id \"a\xE2\x80\xAE\"; "
                 "c0 \"" +
                     white + "\"; c1 \"mate\xE2\x80\x8B\";\nno epd \x1b[2J\n");
    folder.write("empty" + file, "");
  }
  [[nodiscard]] Outcome kairos(const Words& words, const std::string& input = "") const {
    return run_program({words, folder.path(), input, {}});
  }
  TemporaryFolder folder;
};

}  // namespace

TEST_CASE("no name reaches standard output or standard error but as visible characters") {
  const Stand stand;
  const std::string epd = file + ".epd";
  REQUIRE(
      stand.kairos({"scan", file, "-o", "out", "--survey-nodes", "500", "--verify-nodes", "500"})
          .exit_code == 0);
  const std::vector<std::pair<Words, std::string>> lines = {
      {{"check", file, file, "empty" + file}, ""},
      {{"check", "--final-fen", file}, ""},
      {{"check", "missing" + file}, ""},
      {{"check", "--no" + file}, ""},
      {{file}, ""},
      {{"scan", file, "-o", "out" + file, "--survey-nodes", "500", "--verify-nodes", "500"}, ""},
      {{"scan", file, "--player", file}, ""},
      {{"scan", file, "--player", "Ada", "-o", "ada", "--survey-nodes", "500"}, ""},
      {{"scan", file, "--until", file}, ""},
      {{"scan", file, "--part", file}, ""},
      {{"scan", file, "--effort", file}, ""},
      {{"scan", file, "--hours", file}, ""},
      {{"join", file}, ""},
      {{"join", "out", "-o", "joined" + file}, ""},
      {{"habits", "out", "--player", "Ada", "--training", file + ".t"}, ""},
      {{"habits", "out", "--player", hebrew}, ""},
      {{"habits", "out", "--players", file}, ""},
      {{"habits", "out", "--players", "-"}, file + "\n" + hebrew + "\nAda; " + file + "\n"},
      {{"habits", "out", "--players", "-", "-o", "players" + file}, "Ada\n" + white + "\n"},
      {{"habits", "out", "--player", "Ada", "--against", "out"}, ""},
      {{"weigh", "--epd", epd, "--id", file, "Rd8"}, ""},
      {{"weigh", "--fen", "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1", "--nodes", "1000", file}, ""},
      {{"weigh", "--fen", file, "e4"}, ""},
      {{"tally", "--epd", epd, "--id", "a\xE2\x80\xAE", "--nodes", "1000"},
       white + ": Rd8\n" + file + ": Ra1\n"},
      {{"quiz", epd}, "Rd8\n"},
      {{"quiz", epd, "--theme", file}, ""},
      {{"solve", epd, "--nodes", "1000"}, ""},
      {{"solve", "missing" + file}, ""},
      {{"perft", "--epd", epd}, ""},
      {{"perft", "--fen", file, "1"}, ""},
  };
  for (const auto& [words, input] : lines) {
    const Outcome outcome = stand.kairos(words, input);
    INFO(base::visible(base::join(words, " ")));
    INFO(outcome.out << outcome.err);
    CHECK_FALSE(does_harm(outcome.out));
    CHECK_FALSE(does_harm(outcome.err));
    CHECK(outcome.exit_code < 128);
  }
}

TEST_CASE("a file's name is told whole and on one line, and JSON has it as it is") {
  const Stand stand;
  const Outcome check = stand.kairos({"check", file});
  const std::vector<std::string> said = lines_of(check.out);
  CHECK(std::all_of(said.begin(), said.end(), [](const std::string& line) {
    return line.starts_with(shown + ":") || line.starts_with("total: ");
  }));
  CHECK(stand.kairos({"check", "empty" + file}).err.starts_with("error: empty" + shown + ": "));

  const Outcome json = stand.kairos({"check", "--json", file});
  CHECK_FALSE(does_harm(json.out));
  for (const std::string& line : lines_of(json.out)) {
    const auto object = base::parse_json(line);
    REQUIRE(object.ok());
    if (const base::Json* name = object->find("file")) CHECK(*name->text() == file);
  }
}

TEST_CASE("on a terminal a name commands nothing, in messages and in the progress line") {
  const Stand stand;
  // A dumb terminal: every escape sequence would be somebody else's.
  const Outcome check = run_on_terminal(
      {{"check", file, "missing" + file}, stand.folder.path(), "", {{"TERM", "dumb"}}});
  std::string text = check.out;
  std::erase(text, '\r');
  CHECK_FALSE(does_harm(text));
  CHECK(text.find(shown) != std::string::npos);
  CHECK(cli::progress_text({.done = 7, .note = file}) == shown + ": 7 games");
}

TEST_CASE("the log and the reports of a scan hold no harm from names, moments.jsonl the names") {
  const Stand stand;
  const Outcome scan = stand.kairos({"scan", file, "-o", "out", "--log", "run.log",
                                     "--survey-nodes", "2000", "--verify-nodes", "2000"});
  INFO(scan.err);
  REQUIRE(scan.exit_code == 0);
  const std::string log = stand.folder.read("run.log");
  CHECK_FALSE(does_harm(log));
  CHECK(log.find("scan of " + shown + " into out") != std::string::npos);
  for (const char* name :
       {"report.txt", "report.html", "questions.html", "stage.html", "sheet.html", "recap.html"}) {
    INFO(name);
    const std::string report = stand.folder.read(std::string("out/") + name);
    CHECK_FALSE(does_harm(report, true));
    const bool isolated =
        report.find("\xE2\x81\xA8" + hebrew + "\xE2\x81\xA9") != std::string::npos;
    CHECK(isolated == (report.find(hebrew) != std::string::npos));
  }
  CHECK(stand.folder.read("out/report.txt").find("Ada Rosin") != std::string::npos);
  const std::string lines = stand.folder.read("out/moments.jsonl");
  CHECK_FALSE(does_harm(lines));
  REQUIRE_FALSE(lines_of(lines).empty());
  const auto moment = base::parse_json(lines_of(lines).front());
  REQUIRE(moment.ok());
  CHECK(*moment->find("file")->text() == file);
  CHECK(*moment->find("black")->text() == hebrew);
  CHECK(moment->find("white")->text()->find("\xE2\x80\xAE"
                                            "Rosin") != std::string::npos);
}
