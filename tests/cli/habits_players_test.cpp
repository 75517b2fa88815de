// kairos habits --players from outside: a page for each player of a file and the overview, and the
// files and names that it refuses.
#include <catch2/catch.hpp>
#include <filesystem>

#include "kairos/base/json.hpp"

#include "pupils.hpp"
#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

using Words = std::vector<std::string>;

// Invented: short games of four people, two of them called Birch, one under two names.
constexpr const char* games =
    "[Event \"Club\"]\n[Date \"2025.01.10\"]\n[White \"Amber, Ida\"]\n[Black \"Birch, Jon\"]\n"
    "[Result \"1-0\"]\n\n1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0\n\n"
    "[Event \"Club\"]\n[Date \"2025.02.10\"]\n[White \"Birch, Jon\"]\n[Black \"Cedar, Kim\"]\n"
    "[Result \"0-1\"]\n\n1. d4 d5 2. Nf3 Nf6 3. Bf4 e6 4. e3 Bd6 5. Qd3 Bxf4 6. Qa3 Bxe3 "
    "7. Qxe3 O-O 8. Nc3 c5 9. O-O-O Nc6 10. Qg5 h6 11. Qh4 Nd4 0-1\n\n"
    "[Event \"Open\"]\n[Date \"2026.02.10\"]\n[White \"Cedar, Kim\"]\n[Black \"Birch, Lou\"]\n"
    "[Result \"0-1\"]\n\n1. f3 e5 2. g4 Qh4# 0-1\n\n"
    "[Event \"Open\"]\n[Date \"2026.02.11\"]\n[White \"Willow, Ida\"]\n[Black \"Cedar, Kim\"]\n"
    "[Result \"1-0\"]\n\n1. e4 g5 2. Nc3 f5 3. Qh5# 1-0\n\n";

class Desk {
 public:
  Desk() {
    folder.write("games.pgn", games);
    const Words words = {"scan", "games.pgn",      "-o",   "club",
                         "-q",   "--survey-nodes", "2000", "--verify-nodes",
                         "3000", "--puzzle-nodes", "3000"};
    REQUIRE(run_program({words, folder.path(), "", {}}).exit_code == 0);
  }
  [[nodiscard]] Outcome habits(Words words) const {
    words.insert(words.begin(), {"habits", "club"});
    return run_program({words, folder.path(), "", {}});
  }
  // Of a file with this text, into the folder "out".
  [[nodiscard]] Outcome players(const std::string& text, Words more = {"-o", "out"}) const {
    folder.write("pupils.txt", text);
    more.insert(more.begin(), {"--players", "pupils.txt"});
    return habits(more);
  }
  // What stands in "out", files by their path there.
  [[nodiscard]] Words written() const {
    Words names;
    if (!std::filesystem::exists(folder / "out")) return names;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder / "out")) {
      if (entry.is_directory()) continue;
      names.push_back(std::filesystem::relative(entry.path(), folder / "out").string());
    }
    std::sort(names.begin(), names.end());
    return names;
  }
  TemporaryFolder folder;
};

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

const Words page_files = {"player.html", "player.txt", "training.epd"};

}  // namespace

TEST_CASE("each player of the file has the page that --player writes, and a row") {
  const Desk desk;
  const Outcome outcome = desk.players("# my pupils\r\n\r\njon birch\r\nAmber, Ida; Willow\r\n");
  INFO(outcome.err);
  REQUIRE(outcome.exit_code == 0);
  CHECK(outcome.err.empty());
  CHECK(contains(outcome.out, "Birch, Jon: 2 games, 0 habits, "));
  CHECK(contains(outcome.out, "overview in out: players.html, players.txt; "));
  CHECK(desk.written() == Words{"Amber-Ida/player.html", "Amber-Ida/player.txt",
                                "Amber-Ida/training.epd", "jon-birch/player.html",
                                "jon-birch/player.txt", "jon-birch/training.epd", "players.html",
                                "players.txt"});
  REQUIRE(desk.habits({"--player", "Birch, Jon", "-o", "jon"}).exit_code == 0);
  REQUIRE(desk.habits({"--player", "Amber", "--also", "Willow", "-o", "ida"}).exit_code == 0);
  for (const std::string& file : page_files) {
    INFO(file);
    CHECK(desk.folder.read("out/jon-birch/" + file) == desk.folder.read("jon/" + file));
    CHECK(desk.folder.read("out/Amber-Ida/" + file) == desk.folder.read("ida/" + file));
  }
  const std::string text = desk.folder.read("out/players.txt");
  const auto jon = text.find("\nBirch, Jon "), ida = text.find("\nWillow, Ida ");
  CHECK(jon < ida);  // in the order of the file
  CHECK(ida != std::string::npos);
  CHECK(contains(text, "\n    jon-birch/player.txt\n"));
  const std::string html = desk.folder.read("out/players.html");
  CHECK(contains(html, "<a href=\"jon-birch/player.html\">Birch, Jon</a>"));
  // Again, over its own.
  CHECK(desk.players("jon birch\nAmber, Ida; Willow\n").exit_code == 0);
  CHECK(desk.folder.read("out/players.txt") == text);
  CHECK(desk.folder.read("out/players.html") == html);
}

TEST_CASE("who is not to be told is said with file and line, and the others are written") {
  const Desk desk;
  const Outcome outcome = desk.players("Nobody\nJon Birch\nBirch\nAmber;Jon Birch\n");
  CHECK(outcome.exit_code == 1);
  const Words told = lines_of(outcome.err);
  REQUIRE(told.size() == 3);
  CHECK(contains(told[0], "error: pupils.txt:1: "));
  CHECK(contains(told[0], "no player in these games is called \"Nobody\""));
  CHECK(contains(told[1], "error: pupils.txt:3: "));
  CHECK(contains(told[1], "\"Birch\" may be any of: Birch, Jon; Birch, Lou"));
  CHECK(contains(told[2], "error: pupils.txt:4: "));
  CHECK(contains(told[2], "\"Amber, Ida\" and \"Birch, Jon\" play each other"));
  CHECK(desk.written().size() == 5);
  CHECK(contains(desk.folder.read("out/players.txt"), ": 1 player\n"));
  CHECK(contains(desk.folder.read("out/players.txt"), "Nobody; Birch; Amber"));
  const Outcome none = desk.players("Nobody\n", {"-o", "none"});
  CHECK(none.exit_code == 2);
  CHECK_FALSE(std::filesystem::exists(desk.folder / "none"));
}

TEST_CASE("no two players share a folder, and no line of the file a player") {
  const Desk desk;
  const auto check_refused = [&desk](const std::string& text, const std::string& told) {
    const Outcome outcome = desk.players(text);
    INFO(outcome.err);
    CHECK(outcome.exit_code == 2);
    CHECK(lines_of(outcome.err).size() == 1);
    CHECK(contains(outcome.err, told));
    CHECK(desk.written().empty());
  };
  check_refused("Jon Birch\n\nJon/Birch\n",
                "pupils.txt:3: cannot do that: \"Jon/Birch\" would have the folder Jon-Birch of "
                "line 1 as well");
  check_refused("jon birch\nJon Birch\n", "of line 1 as well");
  check_refused("Jon Birch\nBirch, Jon\n",
                "pupils.txt:2: cannot do that: \"Birch, Jon\" is the player of line 1 again");
  check_refused("..\n", "pupils.txt:1: cannot do that: \"..\" has no letter");
  check_refused("Amber\n ; ;\n", "pupils.txt:2: cannot do that: no name stands in the line");
  check_refused(std::string(1'001, 'a') + "\n", "a line of more than 1,000 bytes");
}

TEST_CASE("no folder leads elsewhere or is hidden, whatever a name holds") {
  const Desk desk;
  CHECK(desk.players("../Amber\n.Cedar\n/Jon/Birch/\n").exit_code == 0);
  CHECK(desk.written().size() == 11);
  CHECK(std::filesystem::exists(desk.folder / "out/Amber/player.html"));
  CHECK(std::filesystem::exists(desk.folder / "out/Cedar/player.html"));
  CHECK(std::filesystem::exists(desk.folder / "out/Jon-Birch/player.html"));
  CHECK_FALSE(std::filesystem::exists(desk.folder / "Amber"));
  const std::vector<std::pair<std::string, std::string>> names = {
      {"Birch, Jon", "Birch-Jon"},
      {"../../etc/passwd", "etc-passwd"},
      {"...", ""},
      {" - ", ""},
      {"O'Neil, M.", "O-Neil-M"},
      {"a\\b:c*d?e\"f<g>h|i", "a-b-c-d-e-f-g-h-i"},
      {"M\xC3\xBCller", "M\xC3\xBCller"},
      {"a\xE2\x80\xAE"
       "b",
       "ab"},  // hidden: turns the direction of writing
      {"a\x1B[2Jb\n", "a-2Jb"},
      {"caf\xE9", "caf\xC3\xA9"},  // ISO 8859-1
      {"~root", "root"},
      {"$(reboot)", "reboot"},
      {std::string(150, 'x'), std::string(100, 'x')},
      {std::string(99, 'x') + "\xC3\xBC", std::string(99, 'x')},  // not half a letter
      {std::string(99, 'x') + " y", std::string(99, 'x')},
  };
  for (const auto& [name, folder] : names) {
    INFO(name);
    CHECK(cli::folder_name(name) == folder);
  }
}

TEST_CASE("a file of players that is none is told as such") {
  const Desk desk;
  const auto check_unreadable = [&desk](const std::string& file, const std::string& told) {
    const Outcome outcome = desk.habits({"--players", file, "-o", "out"});
    INFO(outcome.err);
    CHECK(outcome.exit_code == 3);
    CHECK(contains(outcome.err, "error: " + file + ": " + told));
    CHECK(desk.written().empty());
  };
  desk.folder.write("empty", "");
  check_unreadable("empty", "the file is empty: it names no player");
  desk.folder.write("remarks", "# nobody yet\n\n");
  check_unreadable("remarks", "the file is empty: it names no player");
  check_unreadable("club", "is a folder");
  check_unreadable("nowhere", "cannot open");
  check_unreadable("/dev/zero", "the file is longer than any of its kind");
  desk.folder.write("wide",
                    "\xFF\xFE"
                    "A");
  check_unreadable("wide", "the text is in units of two bytes");
  desk.folder.write("marked",
                    "\xEF\xBB\xBF"
                    "Amber");
  CHECK(desk.habits({"--players", "marked"}).exit_code == 0);
}

TEST_CASE("without a folder the overview is printed, or an object a line") {
  const Desk desk;
  const Outcome text = desk.players("Jon Birch\nAmber\n", {});
  CHECK(text.exit_code == 0);
  CHECK(text.out.starts_with("KAIROS "));
  CHECK(contains(text.out, ": 2 players\n"));
  CHECK_FALSE(contains(text.out, "player.txt"));
  CHECK(desk.written().empty());
  const Outcome json = desk.players("Jon Birch\nAmber\n", {"--json"});
  CHECK(json.exit_code == 0);
  const Words lines = lines_of(json.out);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0] + "\n" == desk.habits({"--player", "Jon Birch", "--json"}).out);
  CHECK(*base::parse_json(lines[1]).value().find("player")->text() == "Amber, Ida");
  const Outcome field = desk.players("Jon Birch\n", {"--against", "field"});
  CHECK(contains(field.out, "Errors     Field          Rate (95 %)\n"));
}

TEST_CASE("what goes with one player alone is refused with --players, and one of both is needed") {
  const Desk desk;
  const auto check_usage = [&desk](const Words& more, const std::string& told) {
    const Outcome outcome = desk.players("Amber\n", more);
    INFO(outcome.err);
    CHECK(outcome.exit_code == 2);
    CHECK(contains(outcome.err, told));
  };
  check_usage({"--player", "Amber"}, "excludes");
  check_usage({"--training", "mine.epd"}, "excludes");
  check_usage({"--also", "Willow"}, "--also requires --player");
  const Outcome neither = desk.habits({"-o", "out"});
  CHECK(neither.exit_code == 2);
  CHECK(contains(neither.err, "--player or --players is required"));
}

TEST_CASE("pages and overviews of others are not written over, and nothing else is then") {
  const Desk desk;
  std::filesystem::create_directories(desk.folder / "out/Amber");
  desk.folder.write("out/Amber/player.html", "my notes\n");
  const Outcome page = desk.players("Jon Birch\nAmber\n");
  CHECK(page.exit_code == 3);
  CHECK(contains(page.err, "player.html is not of this player"));
  CHECK(desk.written() == Words{"Amber/player.html"});
  std::filesystem::remove_all(desk.folder / "out");
  std::filesystem::create_directories(desk.folder / "out");
  desk.folder.write("out/players.txt", "24 players\n");
  const Outcome overview = desk.players("Jon Birch\n");
  CHECK(overview.exit_code == 3);
  CHECK(contains(overview.err, "players.txt is not an overview of players"));
  CHECK(desk.written() == Words{"players.txt"});
}

TEST_CASE("where the disk is full no page is half written, and the overview stays as it was") {
  const Desk desk;
  REQUIRE(desk.players("Jon Birch\nAmber\n").exit_code == 0);
  const Words before = desk.written();
  const std::string html = desk.folder.read("out/players.html");
  // No file may grow beyond 4 blocks of 512 bytes (POSIX, ulimit).
  const Outcome outcome =
      run_shell("trap '' XFSZ; ulimit -f 4; kairos habits club --players pupils.txt -o out",
                desk.folder.path());
  CHECK(outcome.exit_code == 3);
  CHECK(contains(outcome.err, "player.html"));
  CHECK(desk.written() == before);
  CHECK(desk.folder.read("out/players.html") == html);
}
