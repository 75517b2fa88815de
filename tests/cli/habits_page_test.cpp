// kairos habits -o from outside: the page of one player, from ledgers that overlap or not, and the
// folders and names that it refuses.
#include <catch2/catch.hpp>
#include <filesystem>

#include "kairos/base/files.hpp"
#include "kairos/base/json.hpp"

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

using Words = std::vector<std::string>;

// Invented: four short games of one player under two names, and one of others.
constexpr const char* first_game =
    "[Event \"Club\"]\n[Date \"2025.01.10\"]\n[White \"Amber, Ida\"]\n[Black \"Birch, Jon\"]\n"
    "[Result \"1-0\"]\n\n1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0\n\n";
constexpr const char* second_game =
    "[Event \"Club\"]\n[Date \"2025.02.10\"]\n[White \"Birch, Jon\"]\n[Black \"Cedar, Kim\"]\n"
    "[Result \"0-1\"]\n\n1. d4 d5 2. Nf3 Nf6 3. Bf4 e6 4. e3 Bd6 5. Qd3 Bxf4 6. Qa3 Bxe3 "
    "7. Qxe3 O-O 8. Nc3 c5 9. O-O-O Nc6 10. Qg5 h6 11. Qh4 Nd4 0-1\n\n";
constexpr const char* third_game =
    "[Event \"Open\"]\n[Date \"2026.02.10\"]\n[White \"Cedar, Kim\"]\n[Black \"Birch, Jon\"]\n"
    "[Result \"0-1\"]\n\n1. f3 e5 2. g4 Qh4# 0-1\n\n";
// After a marriage.
constexpr const char* other_name_game =
    "[Event \"Open\"]\n[Date \"2026.02.11\"]\n[White \"Willow, Jon\"]\n[Black \"Dogwood, Lee\"]\n"
    "[Result \"1-0\"]\n\n1. e4 g5 2. Nc3 f5 3. Qh5# 1-0\n\n";
// The third game with the other name.
constexpr const char* same_game_other_name =
    "[Event \"Open\"]\n[Date \"2026.02.10\"]\n[White \"Cedar, Kim\"]\n[Black \"Willow, Jon\"]\n"
    "[Result \"0-1\"]\n\n1. f3 e5 2. g4 Qh4# 0-1\n\n";
constexpr const char* strangers_game =
    "[Event \"Open\"]\n[Date \"2026.02.11\"]\n[White \"Cedar, Kim\"]\n[Black \"Amber, Ida\"]\n"
    "[Result \"1-0\"]\n\n1. e4 e5 2. Bc4 Nc6 3. Qh5 Nf6 4. Qxf7# 1-0\n\n";
constexpr const char* not_played =
    "[Event \"Open\"]\n[Date \"2026.02.12\"]\n[White \"Amber, Ida\"]\n[Black \"Birch, Jon\"]\n"
    "[Result \"0-1\"]\n\n0-1\n\n";

class Desk {
 public:
  void scan(const std::string& name, const std::string& games, Words more = {}) const {
    folder.write(name + ".pgn", games);
    Words words = {"scan",    name + ".pgn",    "-o",   name,
                   "--quiet", "--survey-nodes", "2000", "--verify-nodes",
                   "3000",    "--puzzle-nodes", "3000"};
    words.insert(words.end(), more.begin(), more.end());
    REQUIRE(run_program({words, folder.path(), "", {}}).exit_code == 0);
  }
  [[nodiscard]] Outcome habits(Words words) const {
    words.insert(words.begin(), "habits");
    return run_program({words, folder.path(), "", {}});
  }
  TemporaryFolder folder;
};

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

const Words page_files = {"player.html", "player.txt", "training.epd"};

Words names_in(const std::string& folder) {
  Words names;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

TEST_CASE("habits -o writes the page, the text and the puzzles, the same each time") {
  const Desk desk;
  desk.scan("spring", std::string(first_game) + second_game);
  const Outcome outcome = desk.habits({"spring", "--player", "jon birch", "-o", "new/birch"});
  INFO(outcome.err);
  REQUIRE(outcome.exit_code == 0);
  CHECK(contains(outcome.out, "Birch, Jon: 2 games, 0 habits, "));
  CHECK(contains(outcome.out, "page in new/birch: player.html, player.txt, training.epd\n"));
  CHECK(names_in(desk.folder / "new/birch") == page_files);
  const std::string text = desk.folder.read("new/birch/player.txt");
  CHECK(text.starts_with("KAIROS "));
  CHECK(contains(text, "  2 games: 0 won, 0 drawn, 2 lost.\n"));
  CHECK(contains(text, "THE COSTLIEST DECISIONS"));
  CHECK(contains(text, "Amber, Ida - Birch, Jon, 1-0; Club, 2025.01.10"));
  CHECK(contains(text, "In 2 games Birch, Jon had "));
  const std::string html = desk.folder.read("new/birch/player.html");
  CHECK(contains(html, "<h1>Birch, Jon</h1>"));
  CHECK(html.ends_with("</html>\n"));
  // Printed without -o, and written over its own.
  CHECK(desk.habits({"spring", "--player", "jon birch"}).out.starts_with("KAIROS "));
  CHECK(desk.habits({"spring", "--player", "Birch", "-o", "new/birch"}).exit_code == 0);
  CHECK(desk.folder.read("new/birch/player.txt") == text);
  CHECK(desk.folder.read("new/birch/player.html") == html);
}

TEST_CASE("--json holds the lists of the page, entry by entry") {
  const Desk desk;
  desk.scan("spring", std::string(first_game) + second_game);
  const Outcome outcome = desk.habits({"spring", "--player", "Birch", "-o", "birch", "--json"});
  REQUIRE(outcome.exit_code == 0);
  CHECK(lines_of(outcome.out).size() == 1);
  const base::Json json = base::parse_json(outcome.out).value();
  const std::string text = desk.folder.read("birch/player.txt");
  const base::Json& season = *json.find("season");
  CHECK(season.find("games")->integer() == 2);
  CHECK(season.find("lost")->integer() == 2);
  const base::Json::Array& costliest = *season.find("costliest")->find("entries")->elements();
  REQUIRE_FALSE(costliest.empty());
  for (std::size_t i = 0; i < costliest.size(); ++i) {
    const base::Json& entry = costliest[i];
    const bool white = *entry.find("side")->text() == "white";
    CHECK(contains(text, "\n" + std::to_string(i + 1) + ". Move " +
                             std::to_string(*entry.find("move_number")->integer()) +
                             (white ? ", White: " : ", Black: ")));
    CHECK(contains(text, *entry.find("played")->text()));
  }
}

TEST_CASE("--opponent words the page and the text for preparation, with the same data") {
  const Desk desk;
  desk.scan("spring", std::string(first_game) + second_game);
  const std::string told = "For preparation before a game against Birch, Jon";
  const Outcome text = desk.habits({"spring", "--player", "Birch", "--opponent"});
  CHECK(text.exit_code == 0);
  CHECK(contains(text.out, told));
  CHECK(contains(text.out, "not for use during play"));
  CHECK(contains(text.out, "PUZZLES FROM THESE GAMES"));
  const Outcome pages = desk.habits({"spring", "--player", "Birch", "--opponent", "-o", "page"});
  CHECK(contains(pages.out, " puzzles\n"));
  CHECK_FALSE(contains(pages.out, "to train with"));
  CHECK(contains(desk.folder.read("page/player.txt"), told));
  CHECK(contains(desk.folder.read("page/player.html"), told));
  const Outcome own = desk.habits({"spring", "--player", "Birch", "-o", "own"});
  CHECK(own.exit_code == 0);
  CHECK_FALSE(contains(desk.folder.read("own/player.txt"), "preparation"));
  CHECK(desk.folder.read("own/training.epd") == desk.folder.read("page/training.epd"));
  CHECK(desk.habits({"spring", "--player", "Birch", "--opponent", "--json"}).out ==
        desk.habits({"spring", "--player", "Birch", "--json"}).out);
}

TEST_CASE("games of ledgers that overlap count once, and ids of puzzles differ") {
  const Desk desk;
  desk.scan("spring", std::string(first_game) + second_game + not_played);
  desk.scan("autumn", std::string(third_game) + strangers_game);
  desk.scan("year", std::string(third_game) + second_game + first_game);
  const auto text_of = [&desk](Words ledgers) {
    ledgers.insert(ledgers.end(), {"--player", "Birch", "-o", "out"});
    REQUIRE(desk.habits(ledgers).exit_code == 0);
    return desk.folder.read("out/player.txt");
  };
  const std::string apart = text_of({"spring", "autumn"});
  CHECK(contains(apart, "  3 games: 1 won, 0 drawn, 2 lost.\n"));
  CHECK(text_of({"spring", "autumn", "year", "spring"}) == apart);
  CHECK(contains(text_of({"year"}), "  3 games: 1 won, 0 drawn, 2 lost.\n"));
  const std::string puzzles = (text_of({"spring", "year"}), desk.folder.read("out/training.epd"));
  std::vector<std::string> ids;
  for (const std::string& line : lines_of(puzzles)) {
    const auto id = line.find("id \"");
    REQUIRE(id != std::string::npos);
    ids.push_back(line.substr(id, line.find('"', id + 4) - id));
  }
  std::sort(ids.begin(), ids.end());
  CHECK(std::adjacent_find(ids.begin(), ids.end()) == ids.end());
}

TEST_CASE("another name is joined on request, and one game under both names is one") {
  const Desk desk;
  desk.scan("spring", std::string(first_game) + second_game + third_game);
  desk.scan("autumn", std::string(other_name_game) + same_game_other_name);
  const Outcome without = desk.habits({"spring", "autumn", "--player", "Birch"});
  CHECK(contains(without.out, "  3 games: 1 won, 0 drawn, 2 lost.\n"));
  const Outcome joined =
      desk.habits({"spring", "autumn", "--player", "Birch", "--also", "jon willow", "-o", "out"});
  INFO(joined.err);
  REQUIRE(joined.exit_code == 0);
  const std::string text = desk.folder.read("out/player.txt");
  CHECK(contains(text, "  4 games: 2 won, 0 drawn, 2 lost.\n"));
  CHECK(contains(text, "  Also written Birch, Jon.\n"));
  // Whichever name comes first.
  const Outcome turned =
      desk.habits({"spring", "autumn", "--player", "Willow", "--also", "Birch", "-o", "out"});
  CHECK(turned.exit_code == 0);
  CHECK(desk.folder.read("out/player.txt") == text);
  const Outcome two = desk.habits(
      {"spring", "--player", "Birch", "--also", "Amber", "--also", "Cedar", "-o", "nowhere"});
  CHECK(two.exit_code == 2);
  CHECK(contains(two.err,
                 "\"Amber, Ida\" and \"Birch, Jon\" play each other, so they are two "
                 "people"));
  CHECK_FALSE(std::filesystem::exists(desk.folder / "nowhere"));
}

TEST_CASE("a wrong name is told before anything is written") {
  const Desk desk;
  desk.scan("spring", std::string(first_game) + second_game);
  const Outcome nobody = desk.habits({"spring", "--player", "Nobody", "-o", "out"});
  CHECK(nobody.exit_code == 2);
  CHECK(contains(nobody.err, "no player in these games is called \"Nobody\""));
  const Outcome also = desk.habits({"spring", "--player", "Birch", "--also", "Elm", "-o", "out"});
  CHECK(also.exit_code == 2);
  CHECK(contains(also.err, "no player in these games is called \"Elm\""));
  CHECK_FALSE(std::filesystem::exists(desk.folder / "out"));
}

TEST_CASE("one game is told to be one") {
  const Desk desk;
  desk.scan("spring", first_game);
  const Outcome outcome = desk.habits({"spring", "--player", "Birch"});
  CHECK(outcome.exit_code == 0);
  CHECK(contains(outcome.out, "  1 game: 0 won, 0 drawn, 1 lost. It is one game, and a season "));
  CHECK_FALSE(contains(outcome.out, "OVER TIME"));
}

TEST_CASE("a scan for one player leaves the others' places open, and the page says so") {
  const Desk desk;
  desk.scan("all", std::string(first_game) + second_game);
  CHECK_FALSE(contains(desk.habits({"all", "--player", "Birch"}).out, "not been"));
  desk.folder.write("open.pgn",
                    base::read_file(KAIROS_SOURCE_DIR "/samples/club_open.pgn").value());
  const Outcome scan =
      run_program({{"scan", "open.pgn", "-o", "open", "--player", "Marrowby", "--survey-nodes",
                    "300", "--verify-nodes", "1000", "--puzzle-nodes", "1000"},
                   desk.folder.path(),
                   "",
                   {}});
  REQUIRE(scan.exit_code == 0);
  const Outcome outcome = desk.habits({"open", "--player", "Thimblewick"});
  CHECK(contains(outcome.out, "  4 games more have not been studied yet. "));
  CHECK(contains(outcome.out, " places in these games "));
}

TEST_CASE("files that are not this player's page are not written over") {
  const Desk desk;
  desk.scan("spring", std::string(first_game) + second_game);
  for (const std::string& name : page_files) {
    INFO(name);
    std::filesystem::create_directory(desk.folder / "mine");
    desk.folder.write("mine/" + name, "my notes\n");
    const Outcome outcome = desk.habits({"spring", "--player", "Birch", "-o", "mine"});
    CHECK(outcome.exit_code == 3);
    CHECK(contains(outcome.err, "the folder holds the results of another run"));
    CHECK(names_in(desk.folder / "mine") == Words{name});
    CHECK(desk.folder.read("mine/" + name) == "my notes\n");
    std::filesystem::remove_all(desk.folder / "mine");
  }
  REQUIRE(desk.habits({"spring", "--player", "Amber", "-o", "page"}).exit_code == 0);
  const std::string amber = desk.folder.read("page/player.txt");
  const Outcome other = desk.habits({"spring", "--player", "Birch", "-o", "page"});
  CHECK(other.exit_code == 3);
  CHECK(contains(other.err, "player.html is not of this player"));
  CHECK(desk.folder.read("page/player.txt") == amber);
  // Beside the reports of a scan it has its place.
  CHECK(desk.habits({"spring", "--player", "Birch", "-o", "spring"}).exit_code == 0);
  CHECK(desk.habits({"spring", "--player", "Birch", "-o", "spring"}).exit_code == 0);
  const Outcome file = desk.habits({"spring", "--player", "Birch", "-o", "spring.pgn"});
  CHECK(file.exit_code == 3);
  CHECK(contains(file.err, "spring.pgn"));
}

TEST_CASE("where the disk is full the page that was there stays, and nothing half written") {
  const Desk desk;
  desk.scan("spring", std::string(first_game) + second_game);
  REQUIRE(desk.habits({"spring", "--player", "Birch", "-o", "page"}).exit_code == 0);
  const std::string html = desk.folder.read("page/player.html");
  // No file may grow beyond 4 blocks of 512 bytes (POSIX, ulimit).
  const Outcome outcome = run_shell(
      "trap '' XFSZ; ulimit -f 4; kairos habits spring --player Birch -o page", desk.folder.path());
  CHECK(outcome.exit_code == 3);
  CHECK(contains(outcome.err, "player.html"));
  CHECK(names_in(desk.folder / "page") == page_files);
  CHECK(desk.folder.read("page/player.html") == html);
}
