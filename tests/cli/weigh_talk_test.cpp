// kairos weigh as a conversation: thirty-odd questions on five published games, on a pipe, as JSON
// and at a terminal.
//
// The games stand in tests/data/talk/games.pgn (its sources: tests/data/SOURCES.md). What must be
// said was checked on the board, and is in keeping with what is published of the games: Chigorin's
// 32. Bb4 and 22... Kxe7 of Bardeleben's are known errors, 36. Bf1 is Kasparov's, 35. Kg3 and
// 38. Kg5 are Capablanca's. `--nodes`, so that the answers are the same everywhere.
#include <catch2/catch.hpp>
#include <vector>

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

const std::string games = KAIROS_TEST_DIR "/data/talk/games.pgn";

struct Question {
  const char* line;
  std::vector<const char*> says;  // parts of the answer
};

struct Talk {
  const char* name;
  const char* number;  // in the file
  std::vector<Question> questions;
};

// A data table.
const std::vector<Talk>& talks() {
  static const std::vector<Talk> all = {
      {"Chigorin-Steinitz, 23rd match game, Havana 1892",
       "1",
       {{"32w", {"White is winning.", "Best is 32. Rxb7", "Played was 32. Bb4."}},
        {"Bb4",
         {"32. Bb4 throws the win away and loses: 32... Rxh2+ mates in 2", "32. Rxb7",
          "Black mates in 2  32. Bb4 Rxh2+ 33. Kg1 Rdg2#"}},
        {"and Rxh2+", {"32... Rxh2+ mates in 2"}},
        {"why", {"32... Rxh2+ mates in 2", "32... Rxh2+ 33. Kg1 Rdg2#"}},
        {"back 2", {"White to move, move 32."}},
        {"rook takes b7 or rook c7",
         {"The next best, 32. Rc7, leaves White better, no more.", "32. Rc7 lets the win slip"}},
        {"32. Bb4 Rxh2+ 33. Kg1 Rdg2#", {"White is mated."}}}},
      {"Steinitz-von Bardeleben, Hastings 1895",
       "2",
       {{"22b", {"Black is lost.", "Played was 22... Kf8."}},
        {"king takes e7", {"22... Kxe7", "Black is lost", "23. Qb4+"}},
        {"23. Rxc8", {"23. Rxc8 throws the win away and loses: 23... Qxg4", "23. Re1+"}},
        {"back 2", {"Black to move, move 22."}},
        {"queen takes e7", {"22... Qxe7", "Black is lost", "23. Rxc8+ Rxc8 24. Qxc8+"}},
        {"24b", {"Black is lost.", "Played was 24... Kh8."}},
        {"Kxg7", {"24... Kxg7 makes things worse: 25. Qxd7+ wins the queen"}}}},
      {"Spassky-Fischer, first match game, Reykjavik 1972",
       "3",
       {{"29b", {"The position is level.", "Played was 29... Bxh2."}},
        {"played", {"29... Bxh2 is fine", "29... Ke7 is as good.", "30. g3"}},
        {"g3 h5 Ke2 h4 Kf3 Ke7",
         {"White is better. Best is 33. Kg2, which wins a bishop for a pawn.",
          "33. Kg2 hxg3 34. fxg3 Bxg3 35. Kxg3"}},
        {"Ke2", {"33. Ke2 loses: 33... hxg3 wins a pawn", "Better is 33. Kg2"}},
        {"and hxg3", {"33... hxg3"}},
        {"start", {"White to move, move 1."}}}},
      {"Kasparov-Topalov, Wijk aan Zee 1999",
       "4",
       {{"25b", {"Only 25... Kb6", "hits the knight on a5", "Played was 25... Kb6."}},
        {"Qxe7",
         {"25... Qxe7 loses: 26. Qxd4+ mates in 4.", "White mates in 4",
          "27. Qb6+ Bb7 28. Nc6+ Ka8 29. Qa7#"}},
        {"26. Qxd4+ Kb8 Qb6+", {"Black is lost.", "27... Bb7 28. Nc6+ Ka8 29. Qa7#"}},
        {"36w", {"Only 36. Bf1 keeps the win", "wins the queen on c4", "Played was 36. Bf1."}},
        {"Bf1", {"Only 36. Bf1 keeps the win", "36. Bf1 Rd2 37. Rd7 Rxd7 38. Bxc4"}},
        {"and Rd2", {"36... Rd2", "hits the queen on b2", "Black is lost"}},
        {"37. Rd7", {"Only 37. Rd7 keeps the win", "mate on d2"}}}},
      {"Capablanca-Tartakower, New York 1924",
       "5",
       {{"move 35", {"White is winning.", "35. Kg3", "Played was 35. Kg3."}},
        {"take on c7 with the rook", {"35. Rxc7 throws the win away and loses: 35... Rxc7"}},
        {"38w", {"White is winning.", "Only 38. Kg5 keeps the win"}},
        {"g7", {"g7: illegal move: leaves the king in check"}},
        {"Kg5", {"Only 38. Kg5 keeps the win", "38. Kg5 Rxd4 39. Kf6"}},
        {"and Rxd4", {"38... Rxd4", "Black is lost"}}}},
  };
  return all;
}

std::vector<std::string> arguments_of(const Talk& talk) {
  return {"weigh", "--game", games, "--number", talk.number, "--nodes", "150000"};
}

std::string lines_of_talk(const Talk& talk) {
  std::string lines;
  for (const Question& question : talk.questions) lines.append(question.line).append("\n");
  return lines;
}

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

// What stands beside the boards, in one line; and where there is no board the row itself.
std::string beside_boards(const std::string& terminal) {
  constexpr std::size_t board_width = 26;
  std::string text;
  for (std::string row : lines_of(terminal)) {
    std::erase(row, '\r');
    const bool board =
        row.size() > board_width && (row[4] == '|' || row[4] == '+' || row[4] == ' ');
    const std::string_view said = board ? std::string_view(row).substr(board_width) : row;
    if (!base::trim(said).empty()) text.append(base::trim(said)).append(" ");
  }
  return text;
}

Outcome ask(std::vector<std::string> arguments, const std::string& lines,
            const std::string& folder = ".") {
  arguments.insert(arguments.begin(), "weigh");
  return run_program({std::move(arguments), folder, lines, {}});
}

const std::string start_fen = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";

}  // namespace

TEST_CASE("a conversation of thirty questions on five published games tells what is on the board",
          "[slow]") {
  std::size_t asked = 0;
  for (const Talk& talk : talks()) {
    INFO(talk.name);
    const Outcome run = run_program({arguments_of(talk), ".", lines_of_talk(talk), {}});
    INFO(run.out + run.err);
    REQUIRE(run.exit_code == 0);
    CHECK(run.err.empty());
    // One block an answer, with an empty line behind.
    std::vector<std::string> blocks(1);
    for (const std::string& line : lines_of(run.out)) {
      if (line.empty()) {
        blocks.emplace_back();
      } else {
        blocks.back() += line + "\n";
      }
    }
    REQUIRE(blocks.size() == talk.questions.size() + 1);
    for (std::size_t i = 0; i < talk.questions.size(); ++i) {
      INFO(talk.questions[i].line << ":\n" << blocks[i]);
      for (const char* part : talk.questions[i].says) {
        INFO(part);
        CHECK(has(blocks[i], part));
      }
    }
    asked += talk.questions.size();
  }
  CHECK(asked >= 30);
}

TEST_CASE("at a terminal the same is said, beside the board", "[slow]") {
  for (const Talk& talk : talks()) {
    INFO(talk.name);
    const Invocation invocation{
        arguments_of(talk), ".", lines_of_talk(talk) + "quit\n", {{"TERM", "xterm"}}};
    const Outcome run = run_at_terminal(invocation);
    INFO(run.out);
    REQUIRE(run.exit_code == 0);
    const std::string said = beside_boards(run.out);
    INFO(said);
    for (const Question& question : talk.questions) {
      for (const char* part : question.says) {
        INFO(question.line << ": " << part);
        // Lines of moves are broken into rows that hang behind the score.
        if (std::string_view(part).find("mates in 2  ") == std::string::npos)
          CHECK(has(said, part));
      }
    }
    CHECK(has(run.out, "+-----------------+"));
    CHECK(has(said, "For finished games only."));
    CHECK(run_at_terminal(invocation).out == run.out);
  }
}

TEST_CASE("with a time instead of nodes a terminal is answered, and the search goes on") {
  // Not what is said: that depends on the machine.
  const Outcome run = run_at_terminal({{"weigh", "--fen", start_fen, "--seconds", "0.05", "e4"},
                                       ".",
                                       "and e5\nbest\n\nNf3 d5\nback\nflip\nquit\n",
                                       {{"TERM", "xterm"}}});
  INFO(run.out);
  CHECK(run.exit_code == 0);
  CHECK(has(run.out, "1. e4"));
  CHECK(has(run.out, "1... e5"));
  CHECK(has(run.out, "h g f e d c b a"));
}

TEST_CASE(
    "moves on the command line without a terminal are answered as ever, and nothing is read") {
  const Outcome run = ask({"--fen", start_fen, "--nodes", "2000", "e4"}, "d4\n");
  CHECK(run.exit_code == 0);
  CHECK(has(run.out, "1. e4 "));
  CHECK_FALSE(has(run.out, "1. d4 is"));
}

TEST_CASE("each line is one object with --json, whatever the line holds") {
  const std::string hostile = "\x1b[2J Nf3 \xe2\x80\xae\" \\ \xff";
  const std::string lines = "e4\nand e5\nKe4\n" + hostile +
                            "\nbest\nwhy\nshow\nhelp\nhello\n27w\n" + std::string(100'000, 'x') +
                            "\n";
  const Outcome run = ask({"--fen", start_fen, "--nodes", "2000", "--json"}, lines);
  CHECK(run.exit_code == 0);
  CHECK_FALSE(has(run.out, "\x1b"));
  std::vector<std::string> types;
  for (const std::string& line : lines_of(run.out)) {
    const auto object = base::parse_json(line);
    INFO(line);
    REQUIRE(object);
    REQUIRE(object->find("fen"));
    types.push_back(*object->find("type")->text());
  }
  CHECK(types == std::vector<std::string>{"answer", "answer", "refused", "answer", "answer", "more",
                                          "board", "help", "refused", "refused", "refused"});
  const base::Json first = base::parse_json(lines_of(run.out).front()).value();
  CHECK(*first.find("line")->text() == "e4");
  const base::Json& move = first.find("moves")->elements()->front();
  CHECK(*move.find("move")->text() == "e4");
  CHECK(*move.find("good")->boolean());
  CHECK(move.find("lines")->elements()->size() >= 1);
}

TEST_CASE("hostile lines do nothing to a terminal, nor do hostile files") {
  TemporaryFolder folder;
  folder.write("games.pgn",
               "[White \"\x1b[2J\"]\n[Black \"\xe2\x80\xae\x07\"]\n\n1. e4 e5 2. Nf3 *\n");
  const Outcome run = ask({"--game", "games.pgn", "--nodes", "2000"},
                          "2w\nplayed\n\x1b]0;x\x07\n\x1b[2J Nc3\nnext\n", folder.path());
  CHECK(run.exit_code == 0);
  CHECK_FALSE(has(run.out + run.err, "\x1b"));
  CHECK_FALSE(has(run.out + run.err, "\x07"));
  CHECK(has(run.out, "Played was 2. Nf3."));
  CHECK(has(run.out, "2. Nc3"));
}

TEST_CASE("a place in a game is given by its move, and moves behind it by a line") {
  const auto at = [](std::vector<std::string> more) {
    std::vector<std::string> arguments = {"--game", games, "--nodes", "2000"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return ask(std::move(arguments), "show\n");
  };
  CHECK(has(at({"--move", "32w"}).out, "White to move, move 32."));
  CHECK(has(at({"--move", "31b"}).out, "Black to move, move 31."));
  CHECK(has(at({"--ply", "62"}).out, "White to move, move 32."));
  CHECK(has(at({}).out, "White to move, move 1."));
  CHECK(has(at({"--move", "32w", "--after", "Bb4 Rxh2+"}).out, "White to move, move 33."));
  CHECK(
      has(at({"--move", "32w", "--after", "32. Bb4 Rxh2+ 33. Kg1 Rdg2#"}).out, "White is mated."));
  CHECK(has(at({"--move", "32w", "--after", "Bb4", "Rxh2+"}).out, "32... Rxh2+ mates in 2"));
  const std::pair<std::vector<std::string>, const char*> wrong[] = {
      {{"--move", "90w"}, "--move is 1w to 33w (after the last) for this game"},
      {{"--move", "x"}, "--move takes a move of the game, as 27w or 27b"},
      {{"--move", "32w", "--after", "Bb4 Ke4"}, "--after: Ke4: "},
      {{"--move", "32w", "--after", "hello"}, "no moves to play in --after"}};
  for (const auto& [arguments, words] : wrong) {
    const Outcome run = at(arguments);
    CHECK(run.exit_code == 2);
    INFO(run.err);
    CHECK(has(run.err, words));
  }
  CHECK(ask({"--fen", start_fen, "--move", "1w"}, "").exit_code == 2);
}

TEST_CASE("without a line to answer weigh says what it wants") {
  const Outcome run = ask({"--fen", start_fen}, "");
  CHECK(run.exit_code == 2);
  CHECK(has(run.err, "name the moves to weigh, or ask for --all"));
  CHECK(ask({"--fen", start_fen, "--nodes", "2000"}, "quit\n").exit_code == 0);
}
