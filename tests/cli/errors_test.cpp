// What the program says to bad input: one or two lines on standard error with what and where, and
// the right exit code. The list is that of issue 1.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos::test;

namespace {

constexpr const char* good_game =
    "[Event \"A\"]\n[White \"Amber, Ida\"]\n[Black \"Birch, Jon\"]\n[Result \"1-0\"]\n\n"
    "1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0\n";

// The file of each case, made in `folder`.
void make_bad_files(const TemporaryFolder& folder) {
  folder.write("good.pgn", good_game);
  folder.write("empty.pgn", "");
  std::string garbage;
  for (int i = 0; i < 5000; ++i) garbage += static_cast<char>((i * 7919 + 13) % 251 + 1);
  folder.write("garbage.pgn", garbage);
  std::filesystem::create_directory(folder / "folder");
  // gzip -n of a real game, then cut in the middle
  REQUIRE(run_shell("gzip -nc good.pgn > cut.pgn.gz && truncate -s -20 cut.pgn.gz", folder.path())
              .exit_code == 0);
}

struct BadInput {
  std::vector<std::string> arguments;
  int exit_code;
  std::string says;  // stands in the message
};

// Apart from what is said of a run under way: its start and, on a slow machine, its progress.
bool is_complaint(const std::string& line) {
  return line.find(" to study; effort ") == std::string::npos && !line.starts_with("survey: ") &&
         !line.starts_with("verify: ");
}

}  // namespace

TEST_CASE("unreadable input is named with its reason in one or two lines") {
  TemporaryFolder folder;
  make_bad_files(folder);
  const std::vector<BadInput> cases = {
      {{"check", "missing.pgn"}, 3, "missing.pgn: cannot open: No such file"},
      {{"check", "folder"}, 3, "folder: is a folder, not a file"},
      {{"check", "empty.pgn"}, 3, "empty.pgn: the file is empty"},
      {{"check", "garbage.pgn"}, 3, "no game found"},
      {{"check", "cut.pgn.gz"}, 3, "the gzip data ends too early"},
      {{"scan", "missing.pgn", "-o", "o1"}, 3, "missing.pgn: cannot open: No such file"},
      {{"scan", "folder", "-o", "o2"}, 3, "folder: is a folder, not a file"},
      {{"scan", "empty.pgn", "-o", "o3"}, 3, "empty.pgn: the file is empty"},
      {{"scan", "garbage.pgn", "-o", "o4"}, 3, "no game found"},
      {{"scan", "cut.pgn.gz", "-o", "o5"}, 3, "the gzip data ends too early"},
      {{"scan", "good.pgn", "-o", "good.pgn/out"}, 3, "good.pgn/out: cannot write"},
      {{"scan", "good.pgn", "-o", "/proc/kairos-out"}, 3, "/proc/kairos-out: cannot write"},
      {{"solve", "missing.epd"}, 3, "missing.epd: cannot open"},
      {{"solve", "empty.pgn"}, 3, "empty.pgn: the file is empty"},
      {{"perft", "--epd", "missing.epd"}, 3, "missing.epd: cannot open"},
      {{"perft", "--epd", "folder"}, 3, "folder: is a folder"},
      {{"join", "missing"}, 3, "missing"},
  };
  for (const BadInput& bad : cases) {
    INFO(bad.arguments[0] + " " + bad.arguments[1]);
    const Outcome outcome = run_program({bad.arguments, folder.path(), "", {}});
    INFO(outcome.err);
    CHECK(outcome.exit_code == bad.exit_code);
    CHECK(outcome.err.find(bad.says) != std::string::npos);
    // The one line that says it names the file or folder too, and nothing is said twice.
    std::size_t lines = 0;
    const std::vector<std::string> said = lines_of(outcome.err);
    for (const std::string& line : said) {
      if (line.find(bad.says) == std::string::npos) continue;
      ++lines;
      CHECK((line.starts_with("error: ") || line.starts_with("warning: ")));
      CHECK((line.find(bad.arguments[1]) != std::string::npos ||
             line.find(bad.arguments.back()) != std::string::npos));
    }
    CHECK(lines == 1);
    CHECK(std::count_if(said.begin(), said.end(), is_complaint) <= 3);
  }
}

TEST_CASE("bad usage is told on standard error with a way to more help") {
  const std::vector<BadInput> cases = {
      {{"chek", "x.pgn"}, 2, "did you mean \"check\"?"},
      {{"prft"}, 2, "did you mean \"perft\"?"},
      {{"frobnicate"}, 2, "there is no command \"frobnicate\"; there are scan, check, join"},
      {{"games.pgn"}, 2, "for a file of games, kairos scan games.pgn"},
      {{"help", "wiegh"}, 2, "did you mean \"weigh\"?"},
      {{"check"}, 2, "GAMES is required"},
      {{"check", "--stirct", "x.pgn"}, 2, "did you mean --strict?"},
      {{"check", "--json", "--final-fen", "x.pgn"}, 2, "excludes"},
      {{"perft"}, 2, "DEPTH or --epd is required"},
      {{"perft", "many"}, 2, "DEPTH"},
      {{"perft", "--fen", "8/8/8/8/8/8/8/8 w - - 0 1", "1"}, 2, "each side must have one king"},
      {{"perft", "--fen", "8/8 w", "1"}, 2, "FEN"},
      {{"weigh", "--fen", "8/8/8/8/8/8/8/8 w - - 0 1", "e4"}, 2, "each side must have one king"},
      {{"weigh", "--fen", "8/8 w", "e4"}, 2, "FEN"},
      {{"weigh", "--fen", "xyz", "e4"}, 2, "a position is written in FEN, as \"rnbqkbnr/"},
      {{"weigh", "--fen", "8/8/8/8/8/8/8/8 w - - 0 1", "e4"}, 2, "White has no king; Black has"},
      {{"perft", "--fen", "Nf3 Nc6", "1"}, 2, "not as \"Nf3 Nc6\""},
      {{"solve", "x.epd", "--nodes", "0"}, 2, "--nodes"},
      {{"scan", "x.pgn", "--effort", "huge"}, 2, "takes light, steady or deep, not \"huge\""},
      {{"scan", "x.pgn", "--part", "3/2"}, 2, "3/2"},
      {{"scan", "x.pgn", "--until", "27:00"}, 2, "27:00"},
      {{"check", "-", "-"}, 2, "standard input"},
  };
  for (const BadInput& bad : cases) {
    INFO(bad.arguments[0] + " " + (bad.arguments.size() > 1 ? bad.arguments[1] : ""));
    const Outcome outcome = run_program({bad.arguments, ".", "", {}});
    INFO(outcome.err);
    CHECK(outcome.exit_code == bad.exit_code);
    CHECK(outcome.out.empty());
    CHECK(outcome.err.find(bad.says) != std::string::npos);
    CHECK(lines_of(outcome.err).size() <= 2);
  }
}

TEST_CASE("help is a command too") {
  const Outcome help = run_program({{"help"}, ".", "", {}});
  CHECK(help.exit_code == 0);
  CHECK(help.out == run_program({{"--help"}, ".", "", {}}).out);
  const Outcome of_weigh = run_program({{"help", "weigh"}, ".", "", {}});
  CHECK(of_weigh.exit_code == 0);
  CHECK(of_weigh.out == run_program({{"weigh", "--help"}, ".", "", {}}).out);
}

TEST_CASE("a thing that is wrong with a FEN is told once") {
  const Outcome run = run_program(
      {{"weigh", "--fen", "rnbqkbnr/pppxyppp/8/8/8/9z/PPPPPPPP w KQkq - 0 1", "e4"}, ".", "", {}});
  CHECK(run.exit_code == 2);
  CHECK(lines_of(run.err).size() == 1);
}

TEST_CASE("a player who is not there is met with the nearest names, or with those that are") {
  TemporaryFolder folder;
  folder.write("games.pgn",
               "[White \"Amber, Ann\"]\n[Black \"Birch, Bo\"]\n\n1. e4 *\n\n"
               "[White \"\x1b[2J\"]\n[Black \"Birch, Bo\"]\n\n1. d4 *\n");
  const auto of = [&](const char* name) {
    return run_program({{"scan", "games.pgn", "--player", name}, folder.path(), "", {}});
  };
  CHECK(of("Brich").exit_code == 2);
  CHECK(of("Birsh").err.find("did you mean Birch, Bo?") != std::string::npos);
  CHECK(of("Kowalski").err.find("the players are ") != std::string::npos);
  CHECK(of("Kowalski").err.find("Amber, Ann; Birch, Bo") != std::string::npos);
  CHECK(of("Kowalski").err.find('\x1b') == std::string::npos);
}

TEST_CASE("without a command the help goes to standard error and the exit code is 2") {
  const Outcome outcome = run_program({{}, ".", "", {}});
  CHECK(outcome.exit_code == 2);
  CHECK(outcome.out.empty());
  CHECK(outcome.err.find("Usage: kairos") != std::string::npos);
}

TEST_CASE("what came before the end of a truncated gzip file is read") {
  TemporaryFolder folder;
  std::string games;
  for (int i = 0; i < 200; ++i) games += std::string(good_game) + "\n";
  folder.write("games.pgn", games);
  REQUIRE(run_shell("gzip -n games.pgn && truncate -s -20 games.pgn.gz", folder.path()).exit_code ==
          0);
  const Outcome outcome = run_program({{"check", "games.pgn.gz"}, folder.path(), "", {}});
  CHECK(outcome.exit_code == 3);
  CHECK(outcome.err.find("ends too early") != std::string::npos);
  CHECK(outcome.out.find("0 skipped = ") != std::string::npos);
  CHECK(outcome.out.find("total: 0 read") == std::string::npos);
}

TEST_CASE("a full disk under standard output is an error and not a silent loss") {
  const Outcome outcome = run_shell("kairos perft 3 > /dev/full", ".");
  CHECK(outcome.exit_code == 3);
  CHECK(outcome.err.find("error:") != std::string::npos);
}
