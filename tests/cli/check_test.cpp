// kairos check: every game is accounted for, and what is wrong is told with its place.
#include <catch2/catch.hpp>

#include "kairos/base/json.hpp"

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos::test;

namespace {

std::string game(const std::string& tags, const std::string& moves) {
  return "[Event \"Club\"]\n" + tags + "\n" + moves + "\n\n";
}

// Seven games: whole, whole, cut, skipped (no king), skipped (variant), wrong result, twin of 2.
std::string seven_games() {
  const std::string long_game =
      "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3 O-O 9. h3 Nb8 "
      "10. d4 Nbd7 11. Nbd2 Bb7 12. Bc2 Re8 13. Nf1 Bf8 14. Ng3 g6 15. a4 c5 16. d5 c4 1/2-1/2";
  return game("[White \"Amber, Ida\"]\n[Black \"Birch, Jon\"]\n[Result \"1-0\"]\n",
              "1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0") +
         game("[White \"Cedar, Kim\"]\n[Black \"Birch, Jon\"]\n[Result \"1/2-1/2\"]\n", long_game) +
         game("[White \"Amber, Ida\"]\n[Black \"Cedar, Kim\"]\n[Result \"1-0\"]\n",
              "1. e4 e5 2. Ke3 d5 1-0") +
         game("[FEN \"8/8/8/8/8/8/8/k7 w - - 0 1\"]\n[Result \"*\"]\n", "1. e4 *") +
         game("[Variant \"Atomic\"]\n[Result \"*\"]\n", "1. e4 *") +
         game("[White \"Amber, Ida\"]\n[Black \"Dogwood, Lu\"]\n[Result \"0-1\"]\n",
              "1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 0-1") +
         game("[White \"C. Cedar\"]\n[Black \"J. Birch\"]\n[Result \"1/2-1/2\"]\n", long_game);
}

Outcome check(const TemporaryFolder& folder, std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), "check");
  return run_program({arguments, folder.path(), "", {}});
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("games read and games skipped are the games of the file, and each fault has its place") {
  TemporaryFolder folder;
  folder.write("club.pgn", seven_games());
  const Outcome outcome = check(folder, {"club.pgn"});
  INFO(outcome.out);
  CHECK(outcome.exit_code == 0);
  CHECK(outcome.err.empty());
  CHECK(holds(outcome.out, "club.pgn: 5 read + 2 skipped = 7 games; "));
  CHECK(holds(outcome.out, "total: 5 read + 2 skipped = 7 games; "));
  CHECK(holds(outcome.out, "; 1 cut short; "));
  // Line by count: each of the first two games has four tags, a blank, the moves and a blank. The
  // column is that of the move itself.
  CHECK(holds(outcome.out, "club.pgn:20:13: game 3: illegal move: 2. Ke3"));
  CHECK(holds(outcome.out, "game 4: the FEN of this game is not a legal position"));
  CHECK(holds(outcome.out, "game 5: not standard chess"));
  CHECK(holds(outcome.out, "game 6: the result contradicts the last position"));
}

TEST_CASE(
    "the same game under other spellings is told as a duplicate, short games by players too") {
  TemporaryFolder folder;
  folder.write("club.pgn", seven_games());
  const Outcome outcome = check(folder, {"club.pgn"});
  INFO(outcome.out);
  // Game 6 has the moves of game 1, but it is short and another player lost it.
  CHECK(holds(outcome.out, "; 1 duplicate\n"));
  CHECK(holds(outcome.out,
              "game 7: the same game stands in the input twice: as game 2 at "
              "club.pgn:8"));
}

TEST_CASE("duplicates are found across files, with the number of the game in its own file") {
  TemporaryFolder folder;
  folder.write("a.pgn", seven_games());
  folder.write("b.pgn", seven_games());
  const Outcome outcome = check(folder, {"a.pgn", "b.pgn"});
  INFO(outcome.out);
  CHECK(holds(outcome.out,
              "b.pgn:8: game 2: the same game stands in the input twice: as game 2 at "
              "a.pgn:8"));
  CHECK(holds(outcome.out, "b.pgn:1: game 1: "));
  CHECK(holds(outcome.out, "total: 10 read + 4 skipped = 14 games; "));
}

TEST_CASE("a player is counted once in however many games") {
  TemporaryFolder folder;
  folder.write("club.pgn", seven_games());
  // Amber, Birch, Cedar, Dogwood, and two more spellings; the skipped games have no players.
  CHECK(holds(check(folder, {"club.pgn"}).out, "; 6 players; "));
}

TEST_CASE("--final-fen prints one line for each game and nothing else on standard output") {
  TemporaryFolder folder;
  folder.write("club.pgn", seven_games());
  const Outcome outcome = check(folder, {"--final-fen", "club.pgn"});
  CHECK(outcome.exit_code == 0);
  const auto lines = lines_of(outcome.out);
  REQUIRE(lines.size() == 7);
  // Scholar's mate, by hand.
  CHECK(lines[0] == "r1bqkb1r/pppp1Qpp/2n2n2/4p3/2B1P3/8/PPPP1PPP/RNB1K1NR b KQkq - 0 4");
  // The game with the illegal move ends before it.
  CHECK(lines[2] == "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2");
  CHECK(lines[3] == "-");
  CHECK(lines[4] == "-");
  CHECK(lines[1] == lines[6]);
  CHECK(holds(outcome.err, "game 3: illegal move"));
  CHECK(holds(outcome.err, "total: 5 read + 2 skipped = 7 games"));
}

TEST_CASE("--quiet leaves the last positions alone on both streams") {
  TemporaryFolder folder;
  folder.write("club.pgn", seven_games());
  const Outcome outcome = check(folder, {"--final-fen", "--quiet", "club.pgn"});
  CHECK(lines_of(outcome.out).size() == 7);
  CHECK(outcome.err.empty());
}

TEST_CASE("--strict gives 1 when anything was found and 0 when nothing was") {
  TemporaryFolder folder;
  folder.write("club.pgn", seven_games());
  folder.write("clean.pgn", game("[White \"Amber, Ida\"]\n[Result \"1-0\"]\n", "1. e4 e5 1-0"));
  CHECK(check(folder, {"--strict", "club.pgn"}).exit_code == 1);
  CHECK(check(folder, {"--strict", "clean.pgn"}).exit_code == 0);
}

TEST_CASE("--json prints one object a line: faults, then the file, then the total") {
  TemporaryFolder folder;
  folder.write("club.pgn", seven_games());
  const Outcome outcome = check(folder, {"--json", "club.pgn"});
  CHECK(outcome.exit_code == 0);
  const auto lines = lines_of(outcome.out);
  REQUIRE(lines.size() == 7);  // 4 faults, the file, 1 duplicate, the total
  for (const std::string& line : lines) {
    INFO(line);
    const auto json = kairos::base::parse_json(line);
    REQUIRE(json.ok());
    REQUIRE(json->find("type") != nullptr);
  }
  const auto total = kairos::base::parse_json(lines.back());
  CHECK(*total->find("type")->text() == "total");
  CHECK(total->find("games")->integer() == 7);
  CHECK(total->find("read")->integer() == 5);
  CHECK(total->find("skipped")->integer() == 2);
  CHECK(total->find("duplicates")->integer() == 1);
  const auto fault = kairos::base::parse_json(lines.front());
  CHECK(*fault->find("type")->text() == "fault");
  CHECK(fault->find("line")->integer() == 20);
}

TEST_CASE("standard input is read as a file is") {
  const Outcome outcome = run_program({{"check", "-"}, ".", seven_games(), {}});
  CHECK(outcome.exit_code == 0);
  CHECK(holds(outcome.out, "standard input: 5 read + 2 skipped = 7 games"));
}

TEST_CASE("a folder stands for its PGN files and those of its subfolders by order of name") {
  TemporaryFolder folder;
  std::filesystem::create_directory(folder / "b");
  folder.write("c.pgn", game("", "1. e4 *"));
  folder.write("b/a.PGN", game("", "1. c4 *"));
  folder.write("a.pgn", game("", "1. d4 *"));
  folder.write("notes.txt", "nothing");
  const auto lines = lines_of(check(folder, {"."}).out);
  REQUIRE(lines.size() == 4);
  CHECK(lines[0].starts_with("./a.pgn: 1 read"));
  CHECK(lines[1].starts_with("./b/a.PGN: 1 read"));
  CHECK(lines[2].starts_with("./c.pgn: 1 read"));
}

TEST_CASE("a file that cannot be read does not keep the others from being read") {
  TemporaryFolder folder;
  folder.write("a.pgn", game("", "1. e4 *"));
  const Outcome outcome = check(folder, {"missing.pgn", "a.pgn"});
  CHECK(outcome.exit_code == 3);
  CHECK(holds(outcome.out, "a.pgn: 1 read"));
}

TEST_CASE("faults beyond a thousand of a file are counted, and --json names them all") {
  TemporaryFolder folder;
  std::string games;
  for (int i = 0; i < 1'300; ++i) games += game("", "1. e4 e5 2. Ke3 *");
  folder.write("broken.pgn", games);
  folder.write("also.pgn", game("", "1. Ke3 *"));
  const Outcome outcome = check(folder, {"broken.pgn", "also.pgn"});
  const auto is_fault = [](const std::string& line) { return holds(line, ": illegal move"); };
  const auto lines = lines_of(outcome.out);
  CHECK(std::count_if(lines.begin(), lines.end(), is_fault) == 1'001);
  CHECK(holds(outcome.out, "broken.pgn: there are more faults than told: 300 more"));
  CHECK(holds(outcome.out,
              "broken.pgn: 1,300 read + 0 skipped = 1,300 games; 2,600 plies; 1,300 "
              "cut short; 1,300 faults"));
  // The games are all the same one.
  CHECK(holds(outcome.out, "1,299 duplicates"));
  CHECK(holds(outcome.out, "\nthere are more faults than told: 299 more"));
  CHECK(lines.size() == 1'001 + 1 + 2 + 1'000 + 1 + 1);
  const auto json = lines_of(check(folder, {"--json", "broken.pgn"}).out);
  CHECK(json.size() == 1'300 + 1 + 1'299 + 1);
}
