// kairos tally as its user runs it: the table, the object, what is missing.
#include <catch2/catch.hpp>

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

// Lazard's trap; Tartakower, Schachmethodik (1928), by E. Winter, Chess Explorations 99; the try is
// invented.
constexpr const char* puzzle =
    "rnbqkb1r/pppp1ppp/8/4P3/6n1/7P/PPPNPPP1/R1BQKBNR b KQkq - bm Ne3; id \"lazard\"; "
    "pv Ne3 fxe3 Qh4+; c1 \"material, quiet move\"; c3 \"Nxf2 Kxf2\";\n";

struct Stand {
  explicit Stand() { folder.write("puzzles.epd", puzzle); }
  Outcome tally(const std::string& lines, std::vector<std::string> more = {}) const {
    std::vector<std::string> arguments = {"tally",  "--epd",   "puzzles.epd", "--id",
                                          "lazard", "--nodes", "20000"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return run_program({arguments, folder.path(), lines, {}});
  }
  TemporaryFolder folder;
};

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("tally counts one voice a person and names who was first") {
  const Stand stand;
  const Outcome run = stand.tally(
      "12:00 anna: knight takes f2!\n"
      "12:01 bert: hmm, hard\n"
      "12:02 carl: Ne3\n"
      "12:03 @Anna: no, Ne3\n"       // her first answer counts
      "12:04 dora: Ne3 fxe3 Qh4+\n"  // the whole solution
      "12:05 emil: Ne3 and Qh4 mate\n"
      "12:06 fay: queen takes e5\n"  // not playable
      "12:07 fay: Nxe5\n"
      "nonsense\n");
  INFO(run.out);
  CHECK(run.exit_code == 0);
  CHECK(run.err.empty());
  CHECK(has(run.out,
            "lazard: 5 people answered in 9 lines, 1 not playable, 1 without a move, "
            "1 again from the same, 1 not read"));
  CHECK(has(run.out, "  Ne3     3       60 %   the key: wins the queen"));
  CHECK(has(run.out, "  Nxf2    1       20 %   loses a knight for two pawns: 2. Kxf2"));
  CHECK(has(run.out, "  Nxe5    1       20 %   "));
  CHECK(has(run.out, "  Qxe5 (1): illegal move: no queen on d8 can go to e5"));
  CHECK(has(run.out, "First with the key: carl (12:02) and 2 more"));
  CHECK(has(run.out, "The whole solution: dora (12:04), emil (12:05)"));
}

TEST_CASE("answers count the same with the line ends of every system, the last one with none") {
  const Stand stand;
  const std::string wanted = stand.tally("anna: Ne3\nbert: Nxf2\n\ncarl: Ne3\n").out;
  CHECK(has(wanted, "3 people answered in 3 lines"));
  for (const std::string end : {"\r", "\r\n", "\n\r"}) {
    CAPTURE(end == "\r");
    CHECK(stand.tally("anna: Ne3" + end + "bert: Nxf2" + end + end + "carl: Ne3").out == wanted);
    CHECK(stand.tally("anna: Ne3" + end + "bert: Nxf2" + end + "carl: Ne3" + end).out == wanted);
  }
}

TEST_CASE("tally counts no move that is not meant, and with --latest the last answer") {
  const Stand stand;
  const std::string lines =
      "anna: Nxf2\nbert: I don't like Nxf2, Ne3\ncarl: Nxf2 is bad\nanna: no wait, Ne3\n";
  const std::string first = stand.tally(lines).out;
  CHECK(has(first, "2 people answered in 4 lines, 1 with no move meant, 1 again from the same\n"));
  CHECK(has(first, "First with the key: bert\n"));
  const std::string latest = stand.tally(lines, {"--latest"}).out;
  CHECK(has(latest, "2 people answered in 4 lines, 1 with no move meant, 1 changed\n"));
  CHECK(has(latest, "First with the key: bert and 1 more\n"));
  const auto json = base::parse_json(stand.tally(lines, {"--latest", "--json"}).out);
  REQUIRE(json);
  CHECK(json->find("not_meant")->integer() == 1);
  CHECK(json->find("changed")->integer() == 1);
}

TEST_CASE("tally --json holds the same") {
  const Stand stand;
  const Outcome run = stand.tally("anna: Ne3\nbert: Ne3\ncarl: Nxf2\n", {"--json"});
  const auto json = base::parse_json(run.out);
  REQUIRE(json);
  CHECK(json->find("people")->integer() == 3);
  const base::Json::Array& moves = *json->find("moves")->elements();
  REQUIRE(moves.size() == 2);
  CHECK(*moves[0].find("move")->text() == "Ne3");
  CHECK(moves[0].find("count")->integer() == 2);
  CHECK(moves[0].find("key")->boolean() == true);
  CHECK(*moves[0].find("first")->text() == "anna");
  CHECK(moves[1].find("good")->boolean() == false);
  CHECK(json->find("with_key")->find("count")->integer() == 2);
}

TEST_CASE("tally says the same with any number of threads, whatever is thrown at it") {
  const Stand stand;
  std::string lines;
  for (int i = 0; i < 3000; ++i) {
    const char* const words[] = {"Ne3", "Nxe5", "a6", "d6 now", "Qh4", "castles", "gg", "Rg8"};
    lines += "user" + std::to_string(i % 1700) + ": " + words[i % 8] + "\n";
    if (i % 500 == 0)
      lines += std::string(20'000, 'x') + "\n" + std::string("\0\x1b[2J\xff: \x9b", 9);
  }
  const Outcome one = stand.tally(lines, {"--threads", "1"});
  CHECK(one.exit_code == 0);
  CHECK(one.out == stand.tally(lines, {"--threads", "3"}).out);
  for (const char c : one.out) CHECK((c == '\n' || static_cast<unsigned char>(c) >= 0x20));
}

TEST_CASE("tally tells what is missing") {
  const Stand stand;
  stand.folder.write("none.epd", "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - id \"x\";\n");
  const auto run = [&](std::vector<std::string> arguments) {
    return run_program({std::move(arguments), stand.folder.path(), "anna: e4\n", {}});
  };
  Outcome told = run({"tally", "--epd", "none.epd", "--id", "x"});
  CHECK(told.exit_code == 2);
  CHECK(has(told.err, "names no right move"));
  told = run({"tally", "--epd", "puzzles.epd", "--id", "lazrd"});
  CHECK(told.exit_code == 2);
  CHECK(has(told.err, "the nearest is \"lazard\""));
  CHECK(run({"tally", "--epd", "none.epd"}).exit_code == 3);
  CHECK(run({"tally", "--id", "x"}).exit_code == 2);
  CHECK(run({"tally", "--epd", "nowhere.epd", "--id", "x"}).exit_code == 3);
  CHECK(has(stand.tally("").out, "lazard: 0 people answered in 0 lines"));
}
