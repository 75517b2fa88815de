// kairos draw from outside: where the position comes from, where the picture goes, and what is said
// when either makes no sense.
#include <catch2/catch.hpp>
#include <filesystem>
#include <map>

#include "kairos/base/files.hpp"

#include "support/cli_program.hpp"
#include "support/png.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

using Words = std::vector<std::string>;

// Bernstein-Capablanca, Moscow 1914, before 29...Qb2; D. Mackenzie 2019.
const std::string capablanca = "3r2k1/p4ppp/1q6/8/8/2R1P3/P3QPPP/6K1 b - - 0 29";

Outcome draw(Words arguments, const std::string& folder = ".") {
  arguments.insert(arguments.begin(), "draw");
  return run_program({std::move(arguments), folder, "", {}});
}

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

std::string title_of(const std::string& svg) {
  const auto begin = svg.find("<title>") + 7;
  return svg.substr(begin, svg.find("</title>") - begin);
}

}  // namespace

TEST_CASE("draw writes what the ending of the file's name says, and nothing on standard output") {
  const TemporaryFolder folder;
  for (const char* name : {"a.svg", "A.SVG"}) {
    const Outcome run = draw({"--fen", capablanca, "-o", name}, folder.path());
    CHECK(run.exit_code == 0);
    CHECK(run.out.empty());
    CHECK(run.err.empty());
    CHECK(folder.read(name).starts_with("<svg "));
  }
  CHECK(draw({"--fen", capablanca, "--output", "a.png"}, folder.path()).exit_code == 0);
  CHECK(read_png(folder.read("a.png")).width == 720);
  CHECK(draw({"--fen", capablanca, "-o", "x.dat", "--format", "png", "--pixels", "200"},
             folder.path())
            .exit_code == 0);
  CHECK(read_png(folder.read("x.dat")).width == 200);
  CHECK(folder.names() == Words{"A.SVG", "a.png", "a.svg", "x.dat"});
}

TEST_CASE("the picture that the README shows is what its command writes") {
  const TemporaryFolder folder;
  std::filesystem::create_directory(folder / "samples");
  const auto readme = base::read_file(KAIROS_SOURCE_DIR "/README.md");
  const auto shown = base::read_file(KAIROS_SOURCE_DIR "/samples/board.svg");
  REQUIRE(readme);
  REQUIRE(shown);
  std::size_t drawn = 0;
  for (const std::string& line : lines_of(*readme)) {
    if (!line.starts_with("kairos draw ") || !has(line, "samples/board.svg")) continue;
    CHECK(run_shell(line, folder.path()).exit_code == 0);
    ++drawn;
  }
  CHECK(drawn == 1);
  CHECK(folder.read("samples/board.svg") == *shown);
}

TEST_CASE("draw writes to standard output the bytes that it writes to a file") {
  const TemporaryFolder folder;
  for (const std::string format : {"svg", "png"}) {
    REQUIRE(draw({"--fen", capablanca, "-o", "a." + format}, folder.path()).exit_code == 0);
    const Outcome run = draw({"--fen", capablanca, "-o", "-", "--format", format});
    CHECK(run.exit_code == 0);
    CHECK(run.out == folder.read("a." + format));
  }
  const Outcome terminal =
      run_on_terminal({{"draw", "--fen", capablanca, "-o", "-", "--format", "png"}, ".", "", {}});
  CHECK(terminal.exit_code == 2);
  CHECK(has(terminal.out, "nothing for a terminal"));
}

TEST_CASE("draw takes a position from FEN, from an EPD file, from a game, finished or not") {
  const TemporaryFolder folder;
  folder.write("games.pgn", "1. e4 e5 2. Qh5 Ke7 3. Qxe5# 1-0\n\n1. f3 e5 *\n");
  folder.write("puzzles.epd", "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; id \"g3-m21w\";\n");
  const auto title = [&](Words words) {
    words.insert(words.end(), {"-o", "-", "--format", "svg"});
    const Outcome run = draw(words, folder.path());
    INFO(run.err);
    CHECK(run.exit_code == 0);
    return title_of(run.out);
  };
  CHECK(has(title({"--fen", capablanca}), "Black to move. White: king g1, queen e2, rook c3"));
  CHECK(has(title({"--epd", "puzzles.epd", "--id", "g3-m21w"}), "king g1, rook d1"));
  CHECK(has(title({"--game", "games.pgn", "--ply", "3"}), "queen h5"));
  CHECK(has(title({"--game", "games.pgn", "--ply", "5"}), "queen e5"));  // mate
  CHECK(has(title({"--game", "games.pgn", "--number", "2", "--ply", "1"}), "f3"));
}

TEST_CASE("draw turns the board for the side below, by itself for the side to move") {
  const auto svg = [](const Words& more) {
    Words words = {"--fen", capablanca, "-o", "-", "--format", "svg"};
    words.insert(words.end(), more.begin(), more.end());
    return draw(words).out;
  };
  CHECK(svg({}) == svg({"--below", "mover"}));
  CHECK(svg({}) == svg({"--below", "black"}));
  CHECK(svg({}) != svg({"--below", "white"}));
  for (const Words& look : {Words{"--plain"}, Words{"--no-coordinates"}, Words{"--transparent"},
                            Words{"--arrow", "b6b2"}, Words{"--ring", "d8"}}) {
    CHECK(svg(look) != svg({}));
  }
  CHECK(has(title_of(svg({"--arrow", "b6b2,e2b2", "--arrow", "d8d1", "--ring", "d1,d8"})),
            "Arrows: b6 to b2, e2 to b2, d8 to d1. Ringed: d1, d8."));
}

TEST_CASE("draw says what is wrong with the command line, and draws nothing") {
  const TemporaryFolder folder;
  struct Case {
    Words words;
    const char* said;
  };
  const Case cases[] = {
      {{"--fen", capablanca}, "--output is required"},
      {{"--fen", capablanca, "-o", "a.jpg"}, "is it to be SVG or PNG?"},
      {{"--fen", capablanca, "-o", "-"}, "is it to be SVG or PNG?"},
      {{"--fen", capablanca, "-o", "a.svg", "--format", "gif"}, "--format"},
      {{"-o", "a.svg"}, "give the position by one of --fen, --epd and --game"},
      {{"--fen", "8/8/8/8 w - - 0 1", "-o", "a.svg"}, "error: "},
      {{"--fen", "8/8/8/8/8/8/8/8 w - - 0 1", "-o", "a.svg"}, "error: "},
      {{"--fen", capablanca, "-o", "a.svg", "--arrow", "e2e9"}, "not \"e2e9\""},
      {{"--fen", capablanca, "-o", "a.svg", "--arrow", "e2"}, "not \"e2\""},
      {{"--fen", capablanca, "-o", "a.svg", "--arrow", "e2e2"}, "not \"e2e2\""},
      {{"--fen", capablanca, "-o", "a.svg", "--arrow", "e2e4e5"}, "not \"e2e4e5\""},
      {{"--fen", capablanca, "-o", "a.svg", "--ring", "i9"}, "not \"i9\""},
      {{"--fen", capablanca, "-o", "a.svg", "--ring", "\x1b[2J"}, "\\x1b[2J"},
      {{"--fen", capablanca, "-o", "a.svg", "--below", "north"}, "--below"},
      {{"--fen", capablanca, "-o", "a.svg", "--pixels", "0"}, "from 64 to 4320"},
      {{"--fen", capablanca, "-o", "a.svg", "--pixels", "1000000"}, "from 64 to 4320"},
      {{"--fen", capablanca, "-o", ""}, "is given, but empty"},
      {{"--epd", "p.epd", "-o", "a.svg"}, "--epd needs --id"},
  };
  for (const Case& c : cases) {
    const Outcome run = draw(c.words, folder.path());
    INFO(run.err);
    CHECK(run.exit_code == 2);
    CHECK(run.out.empty());
    CHECK(has(run.err, c.said));
    CHECK_FALSE(has(run.err, "\x1b"));
  }
  CHECK(folder.names().empty());
}

TEST_CASE("draw exits with 3 where a file cannot be read or written, and leaves nothing") {
  const TemporaryFolder folder;
  folder.write("p.epd", "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; id \"a\";\n");
  std::filesystem::create_directory(folder / "taken.svg");
  const Words lines[] = {
      {"--fen", capablanca, "-o", "no/such/folder/a.svg"},
      {"--fen", capablanca, "-o", "taken.svg"},
      {"--epd", "missing.epd", "--id", "a", "-o", "a.svg"},
      {"--game", "missing.pgn", "--ply", "1", "-o", "a.svg"},
  };
  for (const Words& line : lines) {
    const Outcome run = draw(line, folder.path());
    INFO(run.err);
    CHECK(run.exit_code == 3);
    CHECK(run.err.starts_with("error: "));
  }
  CHECK(folder.names() == Words{"p.epd", "taken.svg"});
}

TEST_CASE("an id of an EPD file may be anything: none of it comes into the picture") {
  const TemporaryFolder folder;
  const std::string id = "</title><script>alert(1)</script>../../x";
  folder.write("p.epd", "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; id \"" + id + "\";\n");
  const Outcome run = draw({"--epd", "p.epd", "--id", id, "-o", "a.svg"}, folder.path());
  INFO(run.err);
  CHECK(run.exit_code == 0);
  CHECK_FALSE(has(folder.read("a.svg"), "script"));
  CHECK(folder.names() == Words{"a.svg", "p.epd"});
}

TEST_CASE("scan and join write a diagram for each turning point and puzzle, and no others") {
  const TemporaryFolder folder;
  folder.write("games.pgn",
               "[White \"../../up\"]\n[Black \"<b>\"]\n[Result \"1-0\"]\n\n"
               "1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0\n");
  const Words effort = {"--survey-nodes", "2000",           "--verify-nodes",
                        "4000",           "--puzzle-nodes", "4000"};
  Words scan = {"scan", "games.pgn", "-o", "out", "--diagrams"};
  scan.insert(scan.end(), effort.begin(), effort.end());
  const Outcome first = run_program({scan, folder.path(), "", {}});
  INFO(first.err);
  REQUIRE(first.exit_code == 0);
  CHECK(has(first.out, ", diagrams"));
  const auto diagrams = [&](const std::string& out) {
    std::map<std::string, std::string> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder / (out + "/diagrams"))) {
      const std::string name = entry.path().filename().string();
      files[name] = folder.read(out + "/diagrams/" + name);
    }
    return files;
  };
  const auto drawn = diagrams("out");
  const std::string report = folder.read("out/report.html");
  std::size_t points = 0;
  for (std::size_t at = 0; (at = report.find("class=\"moment\" id=\"", at)) != std::string::npos;) {
    at += 19;
    const std::string name = report.substr(at, report.find('"', at) - at) + ".svg";
    INFO(name);
    CHECK(drawn.count(name) == 1);
    ++points;
  }
  CHECK(points > 0);
  const auto lines = [&](const std::string& file) { return lines_of(folder.read(file)).size(); };
  CHECK(drawn.size() == points + lines("out/puzzles.epd") + lines("out/whynots.epd"));
  for (const auto& [name, svg] : drawn) CHECK(svg.starts_with("<svg "));

  // What an earlier or a killed run has left goes, what is somebody else's stays.
  folder.write("out/diagrams/g9-p4.svg", "old");
  folder.write("out/diagrams/g1-p4.svg.4711.tmp", "half");
  folder.write("out/diagrams/mine.svg", "mine");
  REQUIRE(run_program({scan, folder.path(), "", {}}).exit_code == 0);
  auto again = diagrams("out");
  CHECK(again.erase("mine.svg") == 1);
  CHECK(again == drawn);

  CHECK(run_program({{"join", "out", "-o", "joined", "--diagrams"}, folder.path(), "", {}})
            .exit_code == 0);
  CHECK(diagrams("joined") == drawn);
  CHECK(run_program({{"join", "out", "-o", "bare"}, folder.path(), "", {}}).exit_code == 0);
  CHECK_FALSE(std::filesystem::exists(folder / "bare/diagrams"));
}
