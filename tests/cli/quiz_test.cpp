// kairos quiz: the dialogue through a pipe, and what is kept between two evenings.
#include <catch2/catch.hpp>
#include <csignal>

#include "kairos/base/text.hpp"

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

// Made by hand, each with a plain answer.
const std::string back_rank =
    "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; dm 1; c0 \"Amber - Birch, Club, round 1\"; "
    "c1 \"mate in 1\"; c2 \"1\"; id \"g1-m30w\";\n";
const std::string free_queen =
    "4k3/8/8/3q4/4P3/8/8/4K3 w - - bm exd5; c1 \"material, hanging piece\"; id \"free queen\";\n";
// Taking the pawn is mated on the back rank.
const std::string leave_it =
    "3r2k1/5ppp/8/8/8/8/p4PPP/R5K1 w - - bm h3; c3 \"Rxa2 Rd1#\"; id \"leave it\";\n";
// Two rooks roll the king up; either may begin.
const std::string ladder =
    "7k/8/8/8/8/8/R7/1R4K1 w - - bm Ra7 Rb7; pv Rb7 Kg8 Ra8#; dm 2; id \"ladder\";\n";
// The ladder seen from the other side.
const std::string black_ladder =
    "1r4k1/r7/8/8/8/8/8/7K b - - bm Ra2 Rb2; pv Rb2 Kg1 Ra1#; dm 2; id \"black ladder\";\n";

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

struct Quiz {
  Quiz(const std::string& puzzles) { folder.write("p.epd", puzzles); }

  // Standard input is `answers`, a line each.
  Outcome ask(const std::vector<std::string>& answers, std::vector<std::string> options = {}) {
    options.insert(options.begin(), {"quiz", "p.epd"});
    std::string input;
    for (const std::string& answer : answers) input += answer + "\n";
    return run_program({options, folder.path(), input, {}});
  }
  std::string last_line(const std::vector<std::string>& answers,
                        std::vector<std::string> options = {}) {
    return lines_of(ask(answers, std::move(options)).out).back();
  }

  TemporaryFolder folder;
};

}  // namespace

TEST_CASE("a question shows the board from the side to move and nothing of the answer") {
  Quiz quiz(back_rank + black_ladder);
  const Outcome outcome = quiz.ask({});
  CHECK(outcome.exit_code == 0);
  CHECK(outcome.err.empty());
  CHECK(outcome.out.starts_with("Puzzle 1 of 2\n"));
  CHECK(holds(outcome.out, "\nWhite to move and mate in 1, difficulty 1 of 5\n"));
  CHECK(holds(outcome.out, "\nyour move (or hint, skip, quit): \n"));
  CHECK(holds(outcome.out, "a b c d e f g h"));
  CHECK_FALSE(holds(outcome.out, "Amber"));
  CHECK_FALSE(holds(outcome.out, "Rd8"));
  CHECK(holds(quiz.ask({"Rd8"}).out, "h g f e d c b a"));
}

TEST_CASE("a right answer brings the line, the themes and the game") {
  Quiz quiz(back_rank);
  const Outcome outcome = quiz.ask({"I'd say rook d8 mate!"});
  CHECK(outcome.exit_code == 0);
  CHECK(holds(outcome.out, "\nRight.\n  solution  1. Rd8#\n  themes    mate in 1\n"));
  CHECK(holds(outcome.out, "  from      Amber - Birch, Club, round 1 (g1-m30w)\n"));
  CHECK(lines_of(outcome.out).back() == "1 of 1 right");
}

TEST_CASE("every key is right, and of several moves it is told how many were") {
  Quiz quiz(ladder);
  CHECK(holds(quiz.ask({"Ra7"}).out, "\nRight.\n"));
  const auto said = [](const std::string& answer) { return Quiz(ladder).ask({answer}).out; };
  CHECK(holds(said("Rb7"), "  solution  1. Rb7 Kg8 2. Ra8#\n  right     Ra7 or Rb7\n"));
  CHECK(holds(said("Rb7 and Ra8"), "Right. Your 2 moves are all in the solution.\n"));
  CHECK(holds(said("Rb7 Kg8 Ra8"), "Right. Your 2 moves are all in the solution.\n"));
  CHECK(holds(said("Rb7 Kg8 Ra3"), "Right. Of your 2 moves the first is in the solution.\n"));
}

TEST_CASE("a wrong answer is refuted from the file, counts at once, and may be mended") {
  Quiz quiz(leave_it);
  const Outcome outcome = quiz.ask({"takes a2", "h3"});
  CHECK(holds(outcome.out, "\nNo: 1. Rxa2 fails to 1... Rd1#.\nTry again: 2 more answers.\n"));
  CHECK(holds(outcome.out, "Right, but not at once: it comes again tomorrow.\n"));
  CHECK(holds(outcome.out, "  try       1. Rxa2 Rd1#\n"));
  CHECK(lines_of(outcome.out).back() == "0 of 1 right; 1 comes again tomorrow");
}

TEST_CASE("after three wrong answers the solution is shown") {
  Quiz quiz(free_queen + back_rank);
  const Outcome outcome = quiz.ask({"Ke2", "Kf2", "e5", "Rd8"});
  CHECK(holds(outcome.out, "Try again: 1 more answer.\n"));
  CHECK(holds(outcome.out, "  solution  1. exd5\n"));
  CHECK(holds(outcome.out, "\nRight.\n  solution  1. Rd8#\n"));
  CHECK(lines_of(outcome.out).back() == "1 of 2 right; 1 comes again tomorrow");
}

TEST_CASE("a wrong answer that the file does not know is weighed") {
  Quiz quiz(free_queen);
  const Outcome outcome = quiz.ask({"Kf2"});
  CHECK(holds(outcome.out, "\nNo: 1. Kf2 loses"));
  CHECK(holds(outcome.out, ": 1... Qxe4"));
  CHECK(holds(outcome.out, ".\n  line      1. Kf2 Qxe4 2. "));
}

TEST_CASE("a move as good as the key is called so, and does not count") {
  Quiz quiz(leave_it + back_rank);
  const Outcome outcome = quiz.ask({"g3", "h3", "Rd7", "Rd8"});
  CHECK(holds(outcome.out, "\n1. g3 is good too ("));
  CHECK(holds(outcome.out, "), as far as 200,000 positions searched can tell, but it is not "));
  CHECK(holds(outcome.out, "\n1. Rd7 is good too (wins), but mate in 1 is asked for. "));
  CHECK(lines_of(outcome.out).back() == "2 of 2 right");
}

TEST_CASE("what is illegal, ambiguous or no move at all is told and does not count") {
  Quiz quiz(ladder);
  const Outcome outcome = quiz.ask({"Ra1", "Rc5", "Qd4", "no idea", "", "Rb7"});
  CHECK(holds(outcome.out, "\nRa1: it may be Rba1 or Raa1.\n"));
  CHECK(holds(outcome.out, "\nRc5: no rook on b1 and a2 can go to c5.\n"));
  CHECK(holds(outcome.out, "\nQd4: White has no queen.\n"));
  CHECK(holds(outcome.out, "\nWrite a move, for instance Nf3"));
  CHECK(lines_of(outcome.out).back() == "1 of 1 right");
}

TEST_CASE("hints come one by one, leave out what the question says, and are counted") {
  Quiz quiz(back_rank + free_queen);
  const Outcome outcome = quiz.ask({"hint", " HINT ", "hint", "Rd8", "hint", "quit"});
  CHECK_FALSE(holds(outcome.out, "mate in 1."));
  CHECK(holds(outcome.out, "\nStart with the checks.\n"));
  CHECK(holds(outcome.out, "\nThere are no more hints.\n"));
  CHECK(holds(outcome.out, "\nWhite to move and win material.\n"));
  CHECK(lines_of(outcome.out).back() == "1 of 1 right, 3 hints");
  // Without themes the aim is not known.
  CHECK_FALSE(holds(Quiz(leave_it).ask({"hint"}).out, "White to move and win"));
}

TEST_CASE("skip shows the solution and counts as missed") {
  Quiz quiz(back_rank + free_queen);
  const Outcome outcome = quiz.ask({"skip", "exd5"});
  CHECK(holds(outcome.out, ": \n  solution  1. Rd8#\n"));
  CHECK(lines_of(outcome.out).back() == "1 of 2 right; 1 comes again tomorrow");
}

TEST_CASE("quit and the end of the input leave the question as it was") {
  for (const std::vector<std::string>& answers :
       {std::vector<std::string>{"Rd8", "quit", "exd5"}, std::vector<std::string>{"Rd8"}}) {
    Quiz quiz(back_rank + free_queen);
    const Outcome outcome = quiz.ask(answers);
    CHECK(outcome.exit_code == 0);
    CHECK(lines_of(outcome.out).back() == "1 of 1 right");
    CHECK(quiz.ask({}).out.starts_with("Puzzle 1 of 1\n"));
  }
  Quiz quiz(back_rank);
  CHECK(quiz.last_line({}) == "nothing answered");
  CHECK(quiz.folder.names() == std::vector<std::string>{"p.epd"});
  // The last line needs no end.
  CHECK(lines_of(run_program({{"quiz", "p.epd"}, quiz.folder.path(), "Rd8", {}}).out).back() ==
        "1 of 1 right");
}

TEST_CASE("a missed puzzle comes again on the next day, and then after growing intervals") {
  Quiz quiz(back_rank);
  const auto on = [&quiz](const std::string& date, const std::string& answer) {
    return quiz.last_line({answer}, {"--today", date});
  };
  CHECK(on("2026-02-27", "skip") == "0 of 1 right; 1 comes again tomorrow");
  CHECK(on("2026-02-27", "Rd8") == "nothing is due today; the next comes again tomorrow");
  CHECK(on("2026-02-28", "Rd8") == "1 of 1 right");
  CHECK(on("2026-02-28", "Rd8") == "nothing is due today; the next comes again on 2026-03-02");
  CHECK(on("2026-03-02", "Rd8") == "1 of 1 right");
  CHECK(on("2026-03-05", "Rd8") == "nothing is due today; the next comes again tomorrow");
  CHECK(on("2026-03-06", "Rd8") == "1 of 1 right");
  CHECK(on("2026-03-06", "Rd8") == "nothing is due today; the next comes again on 2026-03-14");
  CHECK(on("2026-05-01", "skip") == "0 of 1 right; 1 comes again tomorrow");
  CHECK(quiz.folder.read("p.epd.score") ==
        "{\"kairos\":\"quiz scores\",\"version\":1}\n"
        "{\"position\":\"6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - -\",\"id\":\"g1-m30w\",\"asked\":5,"
        "\"right\":3,\"days\":1,\"due\":\"2026-05-02\"}\n");
}

TEST_CASE("what is known of other files' puzzles stays, and a position keeps its score by any id") {
  Quiz quiz(back_rank);
  (void)quiz.ask({"Rd8"}, {"--score", "s", "--today", "2026-08-02"});
  quiz.folder.write("p.epd", "# added later\n" + free_queen +
                                 "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8; id \"other\";\n");
  CHECK(quiz.last_line({"exd5", "Rd8"}, {"--score", "s", "--today", "2026-08-02"}) ==
        "1 of 1 right");
  CHECK(lines_of(quiz.folder.read("s")).size() == 3);
  CHECK(quiz.folder.names() == std::vector<std::string>{"p.epd", "s"});
}

TEST_CASE("a damaged or foreign score file is named with its line and left as it is") {
  const std::string header = "{\"kairos\":\"quiz scores\",\"version\":1}\n";
  const auto line = [](const std::string& asked, const std::string& due) {
    return "{\"position\":\"8/8 w - -\",\"id\":\"x\",\"asked\":" + asked +
           ",\"right\":1,\"days\":4,\"due\":\"" + due + "\"}\n";
  };
  const std::string good = line("1", "2026-08-02");
  struct Case {
    std::string bytes;
    std::string says;
  };
  const Case cases[] = {
      {"my notes\n", "p.epd.score:1: not a score file of this command"},
      {back_rank, "p.epd.score:1: not a score file"},
      {"\n" + header, "p.epd.score:1: not a score file"},
      {"{\"kairos\":\"quiz scores\",\"version\":2}\n", "written by another version of kairos"},
      {header + good + "{\"position\":\"8/8", "p.epd.score:3:"},
      {header + line("0", "2026-08-02"),
       "p.epd.score:2: a damaged line of a score file: \"asked\""},
      {header + line("1", "2026-02-30"), "p.epd.score:2: a damaged line of a score file: \"due\""},
      {header + "[]\n", "p.epd.score:2: a damaged line of a score file: \"position\""},
      {header + good + good, "p.epd.score:3: a damaged line of a score file"},
      {header + std::string("\0\0\0", 3), "p.epd.score:2:"},
  };
  for (const Case& c : cases) {
    INFO(c.says);
    Quiz quiz(back_rank);
    quiz.folder.write("p.epd.score", c.bytes);
    const Outcome outcome = quiz.ask({"Rd8"});
    CHECK(outcome.exit_code == 3);
    CHECK(outcome.out.empty());
    INFO(outcome.err);
    CHECK(holds(outcome.err, c.says));
    CHECK(quiz.folder.read("p.epd.score") == c.bytes);
    CHECK(quiz.folder.names().size() == 2);
  }
}

TEST_CASE("where no score can be kept nothing is asked") {
  Quiz quiz(back_rank);
  for (const char* place : {"missing/score", "p.epd/score", "/proc/kairos.score"}) {
    INFO(place);
    const Outcome outcome = quiz.ask({"Rd8"}, {"--score", place});
    CHECK(outcome.exit_code == 3);
    CHECK(outcome.out.empty());
    CHECK(outcome.err.starts_with("error: " + std::string(place) + ": "));
    CHECK(lines_of(outcome.err).size() == 1);
  }
  CHECK(holds(quiz.ask({}, {"--score", "missing/score"}).err, "name another file with --score"));
  CHECK(holds(quiz.ask({}, {"--score", "/dev/null"}).err, "it is no plain file"));
  CHECK(holds(quiz.ask({}, {"--score", "."}).err, "is a folder"));
}

TEST_CASE("every answer is on the disk before the next question, kill or not") {
  // The program waits for its second answer, which never comes.
  const auto until_first_answer = [](const std::string& signal) {
    return "mkfifo in; kairos quiz p.epd < in > out & exec 3> in; echo Rd8 >&3; "
           "until [ -s p.epd.score ]; do sleep 0.05; done; kill -" +
           signal + " $!; wait $!";
  };
  for (const auto& [signal, code] : {std::pair("KILL", 128 + SIGKILL), std::pair("TERM", 130)}) {
    INFO(signal);
    Quiz quiz(back_rank + free_queen);
    CHECK(run_shell(until_first_answer(signal), quiz.folder.path()).exit_code == code);
    CHECK(lines_of(quiz.folder.read("p.epd.score")).size() == 2);
    CHECK(quiz.ask({}).out.starts_with("Puzzle 1 of 1\n"));
  }
}

// Each wrote the scores it had read at its start and its own answers: those of the other vanished.
TEST_CASE("two quizzes on one score file keep the answers of both") {
  Quiz quiz(back_rank);
  quiz.folder.write("q.epd", free_queen + back_rank);
  const Outcome outcome = run_shell(
      "ask() { kairos quiz $1.epd --score s --today 2026-08-02 < $1.in > $1.out; }\n"
      "until_says() { until grep -qs \"$2\" $1.out; do sleep 0.01; done; }\n"
      "mkfifo p.in q.in; ask p & ask q & exec 3> p.in 4> q.in\n"
      "until_says p 'your move'; until_says q 'your move'\n"
      "echo skip >&3; until_says p solution; echo exd5 >&4; until_says q solution\n"
      "echo Rd8 >&4; exec 3>&- 4>&-; wait",
      quiz.folder.path());
  CHECK(outcome.err.empty());
  const std::string score = quiz.folder.read("s");
  CHECK(lines_of(score).size() == 3);
  CHECK(holds(score, "\"id\":\"free queen\",\"asked\":1,\"right\":1"));
  CHECK(holds(score, "\"id\":\"g1-m30w\",\"asked\":2,\"right\":1"));
}

TEST_CASE("quizzes that answer at once lose nothing to each other") {
  Quiz quiz("");
  // The queen hangs with the kings on any two files.
  for (int white = 0; white < 4; ++white) {
    std::string puzzles;
    for (int black = 0; black < 8; ++black) {
      const auto king = [](char letter, int file) {
        const std::string before = file == 0 ? "" : std::to_string(file);
        return before + letter + (file == 7 ? "" : std::to_string(7 - file));
      };
      puzzles += king('k', black) + "/8/8/3q4/4P3/8/8/" + king('K', white) + " w - - bm exd5;\n";
    }
    quiz.folder.write(std::to_string(white) + ".epd", puzzles);
  }
  const Outcome outcome = run_shell(
      "for i in 0 1 2 3; do (yes exd5 | head -n 8 | kairos quiz $i.epd --score s > $i.out) & done; "
      "wait; cat *.out",
      quiz.folder.path());
  CHECK(outcome.err.empty());
  CHECK(lines_of(quiz.folder.read("s")).size() == 1 + 4 * 8);
}

TEST_CASE("--theme keeps what has the word, --count the first of them") {
  Quiz quiz(back_rank + free_queen + leave_it + ladder);
  CHECK(quiz.ask({}).out.starts_with("Puzzle 1 of 4\n"));
  CHECK(quiz.ask({}, {"--count", "3"}).out.starts_with("Puzzle 1 of 3\n"));
  const Outcome hanging = quiz.ask({"exd5"}, {"--theme", "HANGING"});
  CHECK(hanging.out.starts_with("Puzzle 1 of 1\n"));
  CHECK(holds(hanging.out, "\nRight.\n"));
  const Outcome none = quiz.ask({}, {"--theme", "fork"});
  CHECK(none.exit_code == 2);
  CHECK(holds(none.err, "no puzzle has the theme \"fork\""));
  CHECK(holds(none.err, "there are: hanging piece, mate in 1, material"));
  CHECK(holds(Quiz(ladder).ask({}, {"--theme", "fork"}).err, "name no themes"));
}

TEST_CASE("lines that ask nothing or cannot be read are told, and the rest is asked") {
  Quiz quiz(
      "4k3/8/8/8/8/8/8/4K3 w - - id \"nothing asked\";\n"
      "4k3/8/8/8/8/8/8/8 w - - bm Kd2;\n" +
      back_rank);
  const Outcome outcome = quiz.ask({"Rd8"});
  CHECK(outcome.exit_code == 0);
  CHECK(holds(outcome.err, "p.epd:2: each side must have one king"));
  CHECK(holds(outcome.err, "p.epd: a line without bm and pv is left out"));
  CHECK(lines_of(outcome.out).back() == "1 of 1 right");
  CHECK(Quiz("4k3/8/8/8/8/8/8/4K3 w - - id \"x\";\n").ask({}).exit_code == 3);
  CHECK(run_program({{"quiz", "-"}, ".", back_rank, {}}).exit_code == 2);
  CHECK(run_program({{"quiz", "missing.epd"}, ".", "", {}}).exit_code == 3);
  CHECK(quiz.ask({}, {"--today", "tomorrow"}).exit_code == 2);
}

TEST_CASE("a solution that does not begin with a key is not shown, nor one of null moves") {
  const std::string position = "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - ";
  CHECK(holds(Quiz(position + "bm Rd8#; pv Rd7 Kf8 Rd8+;\n").ask({"skip"}).out,
              "  solution  1. Rd8#\n"));
  CHECK(holds(Quiz(position + "bm Rd7; pv Rd7 -- Rd8#;\n").ask({"skip"}).out,
              "  solution  1. Rd7\n"));
  CHECK(Quiz(position + "pv -- Kf8;\n").ask({"hint"}).exit_code == 3);
}

TEST_CASE("texts of the file cannot command the terminal, nor fill it") {
  const std::string evil =
      "\x1b]0;owned\x07 \x1b[2J\xC2\x9B"
      "31m\r\b" +
      std::string(5000, 'x');
  Quiz quiz("6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; c0 \"" + evil + "\"; c1 \"" + evil +
            "\"; c2 \"" + evil + "\"; id \"" + evil + "\";\n" +
            "4k3/8/8/8/8/8/8/4K3 w - - \x1b[2J\xC2\x9B"
            "31m 1;\n");
  for (const char* const option : {"--quiet", "--theme=fork", "--theme=owned"}) {
    const Outcome outcome = quiz.ask({"\x1b[2J",
                                      "\xC2\x9B"
                                      "2J",
                                      "hint", "skip"},
                                     {option});
    for (const std::string& text : {outcome.out, outcome.err}) {
      CHECK(text.find_first_of("\x1b\x07\r\b\x7F") == std::string::npos);
      CHECK_FALSE(holds(text, "\xC2\x9B"));
      CHECK(base::is_valid_utf8(text));
    }
    CHECK(outcome.out.size() < 3000);
  }
}

TEST_CASE("long lines and any bytes are answers like others") {
  Quiz quiz(back_rank + free_queen);
  std::string bytes;
  for (int i = 0; i < 256; ++i) bytes += i == '\n' ? ' ' : static_cast<char>(i);
  // What comes behind the first 500 bytes of a line is no part of it.
  const std::string late = std::string(5'000'000, 'z') + " Rd8";
  const Outcome outcome = quiz.ask({bytes, late, "Rd8" + std::string(9000, ' '), "exd5"});
  CHECK(outcome.exit_code == 0);
  CHECK(lines_of(outcome.out).back() == "2 of 2 right");
}

TEST_CASE("on a terminal long lines break between words") {
  Quiz quiz("6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; id \"x\"; c0 \"" +
            std::string("a label of very many words which goes on and on until it has filled the "
                        "line and needs another one") +
            "\";\n");
  const Outcome outcome =
      run_on_terminal({{"quiz", "p.epd"}, quiz.folder.path(), "Rd7\nRd8\n", {}});
  CHECK(holds(outcome.out, "            "));
  for (const std::string& line : lines_of(outcome.out)) {
    INFO(line);
    CHECK(base::character_count(base::trim(line)) <= 80);
  }
}
