// --letters as its user sees it: what people read is in their letters, what programs read is not.
#include <catch2/catch.hpp>

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos::test;

namespace {

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

// Invented; White mates on f7.
constexpr const char* game =
    "[Event \"Club\"]\n[White \"Amber\"]\n[Black \"Birch\"]\n[Result \"1-0\"]\n\n"
    "1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0\n";

std::vector<std::string> with(std::vector<std::string> words, const std::string& letters) {
  words.insert(words.end(), {"--letters", letters});
  return words;
}

}  // namespace

TEST_CASE("reports for people write moves in the letters asked for, the others do not") {
  const TemporaryFolder folder;
  folder.write("g.pgn", game);
  const auto scan = [&](const std::string& out, const std::string& letters) {
    const Outcome run = run_program({with({"scan", "g.pgn", "-o", out, "--survey-nodes", "300",
                                           "--verify-nodes", "3000", "--puzzle-nodes", "3000"},
                                          letters),
                                     folder.path(),
                                     "",
                                     {}});
    CHECK(run.exit_code == 0);
  };
  scan("english", "english");
  scan("german", "german");
  scan("figures", "figures");
  for (const std::string file : {"puzzles.epd", "whynots.epd", "puzzles.fen", "moments.jsonl",
                                 "annotated.pgn", "moments.csv", "puzzles.pgn"}) {
    INFO(file);
    CHECK(folder.read("german/" + file) == folder.read("english/" + file));
    CHECK(folder.read("figures/" + file) == folder.read("english/" + file));
  }
  REQUIRE(has(folder.read("english/report.txt"), "Qxf7#"));
  for (const std::string file : {"report.txt", "report.html", "recap.html"}) {
    INFO(file);
    const std::string german = folder.read("german/" + file);
    CHECK(has(german, "Dxf7#"));
    CHECK_FALSE(has(german, "Qxf7"));
    CHECK_FALSE(has(german, "Qh5"));
    CHECK(has(folder.read("figures/" + file), "\342\231\225xf7#"));
  }
}

TEST_CASE("weigh, quiz and tally read and write the letters asked for; JSON keeps the standard's") {
  const TemporaryFolder folder;
  // Made by hand: the rook or the king may go to d1.
  folder.write("p.epd",
               "3r2k1/8/8/8/8/8/8/R3K3 w - - bm Rd1; id \"a\";\n"
               "4k3/8/8/3q4/4P3/5N2/8/4K3 w - - bm exd5; id \"b\";\n");
  const auto run = [&](std::vector<std::string> words, const std::string& letters,
                       const std::string& input) {
    return run_program({with(std::move(words), letters), folder.path(), input, {}}).out;
  };
  const std::vector<std::string> weigh = {"weigh", "--epd", "p.epd",   "--id",
                                          "b",     "Se5",   "--nodes", "2000"};
  CHECK(has(run(weigh, "german", ""), "1. Se5 "));
  CHECK(has(run(weigh, "english", ""), "1. Ne5 "));
  std::vector<std::string> json = weigh;
  json.emplace_back("--json");
  CHECK(has(run(json, "german", ""), "\"move\":\"Ne5\""));
  CHECK(run(json, "german", "") == run(json, "english", ""));

  // A name stays a name, also where it looks like a move.
  const std::vector<std::string> tally = {"tally", "--epd",   "p.epd", "--id",
                                          "a",     "--nodes", "2000"};
  const std::string german = run(tally, "german", "Ra1: Td1\nb: Turm d1\nc: Rd1\nd: Kf1\n");
  CHECK(has(german, "  Td1     3 "));
  CHECK(has(german, "First with the key: Ra1 and 2 more"));
  // In French an R is the king.
  CHECK(has(run(tally, "french", "a: Td1\nb: Rf2\nc: Re2\n"), "Re2     1 "));

  const std::string quiz = run({"quiz", "p.epd", "--count", "1"}, "german", "Td1\n");
  CHECK(has(quiz, "Right."));
  CHECK(has(quiz, "1. Td1"));
}

TEST_CASE("letters that nobody has are met with those there are") {
  const Outcome run = run_program(
      {{"weigh", "--fen", "8/8/8/8/8/8/8/8 w - - 0 1", "--letters", "klingon"}, ".", "", {}});
  CHECK(run.exit_code == 2);
  CHECK(has(run.err, "--letters takes english, czech, "));
  CHECK(has(run.err, " or figures, not \"klingon\""));
}
