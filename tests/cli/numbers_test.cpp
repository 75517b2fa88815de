// Numbers on the command line: each option of each command takes what lies in its range in plain
// digits, and tells of anything else in one sentence what it takes.
#include "numbers.hpp"

#include <catch2/catch.hpp>
#include <optional>
#include <set>

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;
using cli::Digits;

namespace {

using Words = std::vector<std::string>;

struct NumericOption {
  std::string command;
  std::string name;   // as an argument has none: "DEPTH"
  std::string takes;  // as the program says it
  std::string least, most;
};

const std::string shares = "a number from 0 to 1";
const std::string nodes_up = " to 1000000000000000";

const std::vector<NumericOption>& numeric_options() {
  static const std::vector<NumericOption> all = [] {
    std::vector<NumericOption> list = {
        {"scan", "--quiet-win-gain", "a whole number of centipawns from 1 to 10000", "1", "10000"},
        {"scan", "--from-move", "a whole number from 1 to 1000", "1", "1000"},
        {"scan", "--puzzles", "a whole number of puzzles from 0 to 1000000", "0", "1000000"},
        {"scan", "--level", "a whole number from 100 to 4000", "100", "4000"},
        {"scan", "--threads", "a whole number of threads from 0 to 1024", "0", "1024"},
        {"scan", "--hours", "a number of hours from 0.000001 to 8784", "0.000001", "8784"},
        {"join", "--puzzles", "a whole number of puzzles from 0 to 1000000", "0", "1000000"},
        {"join", "--level", "a whole number from 100 to 4000", "100", "4000"},
        {"habits", "--error-cost", "a number from 0.01 to 1", "0.01", "1"},
        {"weigh", "--ply", "a whole number of half-moves from 0 to 1000000", "0", "1000000"},
        {"weigh", "--number", "a whole number from 1 to 1000000000", "1", "1000000000"},
        {"weigh", "--seconds", "a number of seconds from 0.05 to 86400", ".05", "86400"},
        {"weigh", "--nodes", "a whole number of nodes from 1000" + nodes_up, "1000",
         "1000000000000000"},
        {"weigh", "--threads", "a whole number of threads from 0 to 1024", "0", "1024"},
        {"weigh", "--level", "a whole number from 100 to 4000", "100", "4000"},
        {"draw", "--ply", "a whole number of half-moves from 0 to 1000000", "0", "1000000"},
        {"draw", "--number", "a whole number from 1 to 1000000000", "1", "1000000000"},
        {"draw", "--pixels", "a whole number of pixels from 64 to 4320", "64", "4320"},
        {"tally", "--top", "a whole number of moves from 1 to 300", "1", "300"},
        {"tally", "--nodes", "a whole number of nodes from 1000" + nodes_up, "1000",
         "1000000000000000"},
        {"tally", "--level", "a whole number from 100 to 4000", "100", "4000"},
        {"tally", "--threads", "a whole number of threads from 0 to 1024", "0", "1024"},
        {"quiz", "--count", "a whole number of questions from 1 to 1000000", "1", "1000000"},
        {"quiz", "--level", "a whole number from 100 to 4000", "100", "4000"},
        {"solve", "--nodes", "a whole number of nodes from 1" + nodes_up, "1", "1000000000000000"},
        {"solve", "--threads", "a whole number of threads from 0 to 1024", "0", "1024"},
        {"solve", "--expect", "a whole number of positions from 0 to 1000000000", "0",
         "1000000000"},
        {"perft", "--max-depth", "a whole number of plies from 0 to 20", "0", "20"},
        {"perft", "DEPTH", "a whole number of plies from 0 to 20", "0", "3"},
    };
    for (const char* name : {"--survey-nodes", "--verify-nodes", "--puzzle-nodes"}) {
      list.push_back(
          {"scan", name, "a whole number of nodes from 1" + nodes_up, "1", "1000000000000000"});
    }
    for (const char* name : {"--swing-cost", "--only-move-least", "--only-move-gap", "--trap-cost",
                             "--resigned-least", "--agreed-least", "--claim-cost", "--decided"}) {
      list.push_back({"scan", name, shares, "0", "1.00"});
    }
    return list;
  }();
  return all;
}

// What the command needs besides; the files are not there, so that it ends where its options were
// good: with 3.
Words command_line(const NumericOption& option, const std::string& value) {
  Words words = {option.command};
  const auto add = [&words](const Words& more) {
    words.insert(words.end(), more.begin(), more.end());
  };
  if (option.command == "habits") add({"--player", "Rosin"});
  const bool of_position = option.command == "weigh" || option.command == "draw";
  if (of_position) add({"--game", "missing.pgn"});
  if (option.command == "weigh") words.emplace_back("e4");
  if (option.command == "draw") add({"-o", "board.svg"});
  if (option.command == "weigh" && option.name == "--level") add({"--json"});
  if (of_position && option.name != "--ply") add({"--ply", "0"});
  if (option.command == "tally") add({"--epd", "missing.epd", "--id", "a"});
  if (option.name == "--max-depth") add({"--epd", "missing.epd"});
  const bool takes_files = !of_position && option.command != "tally" && option.command != "perft";
  if (takes_files) add({"missing.pgn"});
  if (option.name.starts_with("--")) words.push_back(option.name);
  words.push_back(value);
  return words;
}

// "--nodes N" of all help pages: options with a value, but for those that take words.
std::set<std::pair<std::string, std::string>> numeric_options_of_help() {
  const std::set<std::string> words = {"DIR",     "FEN",  "FILE",  "ID",        "K/N",
                                       "LEDGER",  "MOVE", "MOVES", "NAME",      "SIDE",
                                       "SQUARES", "TIME", "WORD",  "YYYY-MM-DD"};
  std::set<std::pair<std::string, std::string>> found;
  for (const char* command :
       {"scan", "check", "join", "habits", "weigh", "draw", "tally", "quiz", "solve", "perft"}) {
    for (const std::string& line : lines_of(run_program({{command, "--help"}, ".", "", {}}).out)) {
      if (!line.starts_with("  -")) continue;
      const std::string option = line.substr(2, line.find("  ", 2) - 2);
      const auto blank = option.rfind(' ');
      if (blank == std::string::npos || words.contains(option.substr(blank + 1))) continue;
      const std::string names = option.substr(0, blank);
      if (names.ends_with(',')) continue;  // "-q,--quiet" has no value
      found.emplace(command, names);
    }
  }
  return found;
}

}  // namespace

TEST_CASE("a number is read in plain digits and nothing else") {
  const cli::Numbers range{.least = -5, .most = 1e15, .unit = {}};
  const auto whole = [&](const char* text) {
    const auto read = cli::read_number(text, Digits::whole, range);
    return read ? std::optional(*read) : std::nullopt;
  };
  const auto real = [&](const char* text) {
    const auto read = cli::read_number(text, Digits::with_fraction, range);
    return read ? std::optional(*read) : std::nullopt;
  };
  CHECK(whole("0") == 0);
  CHECK(whole("12") == 12);
  CHECK(whole("-5") == -5);
  CHECK(whole("1000000000000000") == 1e15);
  CHECK(real("12") == 12);
  CHECK(real("0.25") == 0.25);
  CHECK(real(".25") == 0.25);
  CHECK(real("-.5") == -0.5);
  CHECK(real("0.10") == 0.1);
  for (const char* text : {"",
                           " ",
                           "nan",
                           "NaN",
                           "-nan",
                           "inf",
                           "-inf",
                           "infinity",
                           "+1",
                           "010",
                           "00",
                           "-01",
                           "8h",
                           "0x10",
                           "1e3",
                           "1e400",
                           "1,000",
                           " 8",
                           "8 ",
                           "8\n",
                           "-",
                           "--5",
                           ".",
                           "-.",
                           "1.",
                           "1.2.3",
                           "00.5",
                           "-6",
                           "1_000",
                           "1000000000000001",
                           "99999999999999999999999999",
                           "1e-400",
                           "\xD9\xA3"}) {
    CAPTURE(text);
    CHECK_FALSE(whole(text));
    CHECK_FALSE(real(text));
  }
  for (const char* text : {"0.25", ".5", "1.0"}) CHECK_FALSE(whole(text));
}

TEST_CASE("what a number must be is told in plain figures, and what was given so that it is seen") {
  const auto words = [](const std::string& text, Digits digits, const cli::Numbers& range) {
    return cli::read_number(text, digits, range).fault().detail;
  };
  CHECK(words("8h", Digits::with_fraction, {.least = 0.000'001, .most = 8784, .unit = "hours"}) ==
        "a number of hours from 0.000001 to 8784 in plain digits, not \"8h\"");
  CHECK(words("010", Digits::whole, {.least = 0, .most = 20, .unit = {}}) ==
        "a whole number from 0 to 20 in plain digits, not \"010\"");
  CHECK(words("\x1b[2J", Digits::whole, {.least = 0, .most = 1e15, .unit = {}}) ==
        "a whole number from 0 to 1000000000000000 in plain digits, not \"\\x1b[2J\"");
  CHECK(words(std::string(5000, '9'), Digits::whole, {.least = 0, .most = 1, .unit = {}}).size() <
        120);
}

TEST_CASE("the table of numeric options has all that the help pages have") {
  std::set<std::pair<std::string, std::string>> listed;
  for (const NumericOption& option : numeric_options()) {
    if (option.name.starts_with("--")) listed.emplace(option.command, option.name);
  }
  CHECK(listed == numeric_options_of_help());
}

TEST_CASE("every numeric option takes the ends of its range") {
  const TemporaryFolder folder;
  for (const NumericOption& option : numeric_options()) {
    for (const std::string& value : {option.least, option.most}) {
      const Outcome outcome = run_program({command_line(option, value), folder.path(), "", {}});
      INFO(option.command << " " << option.name << " " << value << ": " << outcome.err);
      CHECK(outcome.exit_code == (option.name == "DEPTH" ? 0 : 3));
    }
  }
}

TEST_CASE("every numeric option refuses what is no number in its range, in one plain sentence",
          "[slow]") {
  const TemporaryFolder folder;
  const Words wrong = {"nan", "inf", "-1",    "010",
                       "",    "8h",  "1e400", " 1",
                       "1 ",  "+1",  "0x1",   "99999999999999999999999999999999999999999999"};
  for (const NumericOption& option : numeric_options()) {
    for (const std::string& value : wrong) {
      const Outcome outcome = run_program({command_line(option, value), folder.path(), "", {}});
      const std::string shown = value.size() > 40 ? value.substr(0, 37) + "..." : value;
      INFO(option.command << " " << option.name << " \"" << value << "\": " << outcome.err);
      CHECK(outcome.exit_code == 2);
      CHECK(outcome.out.empty());
      CHECK(outcome.err == "error: " + option.name + " takes " + option.takes +
                               " in plain digits, not \"" + shown + "\" (see kairos " +
                               option.command + " --help)\n");
    }
  }
}

TEST_CASE("an option that is given empty is told, whatever it takes") {
  const TemporaryFolder folder;
  folder.write("games.pgn", "1. e4 *\n");
  const std::vector<Words> lines = {
      {"scan", "games.pgn", "--until", ""},
      {"scan", "games.pgn", "--player", ""},
      {"scan", "games.pgn", "--log", ""},
      {"scan", "games.pgn", "--from", ""},
      {"scan", "games.pgn", "--out", ""},
      {"scan", ""},
      {"check", ""},
      {"habits", "out", "--player", "", "--json"},
      {"habits", "out", "--player", "A", "--training", ""},
      {"quiz", "p.epd", "--theme", ""},
      {"quiz", "p.epd", "--today", ""},
      {"quiz", "p.epd", "--score", ""},
      {"weigh", "--fen", "", "e4"},
      {"draw", "-o", "a.svg", "--fen", ""},
      {"draw", "-o", "a.svg", "--fen", "x", "--ring", ""},
      {"perft", "--epd", ""},
      {"tally", "--epd", "p.epd", "--id", ""},
  };
  for (const Words& line : lines) {
    const Outcome outcome = run_program({line, folder.path(), "", {}});
    INFO(line[0] << " " << line[line.size() - 2] << ": " << outcome.err);
    CHECK(outcome.exit_code == 2);
    CHECK(outcome.out.empty());
    CHECK(outcome.err.find(" is given, but empty (see kairos " + line[0]) != std::string::npos);
  }
  CHECK(folder.names() == Words{"games.pgn"});
}
