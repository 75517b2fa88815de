// Runs that are split, joined, continued, extended, narrowed or refused: kairos scan and kairos
// join from outside.
#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <map>
#include <regex>
#include <sstream>
#include <thread>

#include "kairos/base/json.hpp"

#include "support/cli_program.hpp"
#include "support/forger.hpp"
#include "support/small_games.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace fs = std::filesystem;

namespace {

using Words = std::vector<std::string>;

// A folder with the small games, and kairos at a tiny effort in it.
class Desk {
 public:
  Desk() { folder.write("games.pgn", std::string(small_games)); }

  [[nodiscard]] Outcome kairos(const Words& words, const std::string& input = "") const {
    return run_program({words, folder.path(), input, {}});
  }
  [[nodiscard]] Outcome scan(const Words& words, const std::string& input = "") const {
    return kairos(scan_words(words), input);
  }
  static Words scan_words(const Words& words) {
    Words all = {"scan", "--survey-nodes", "500", "--verify-nodes",
                 "2000", "--puzzle-nodes", "2000"};
    all.insert(all.end(), words.begin(), words.end());
    return all;
  }
  // All files of a folder but the ledger.
  [[nodiscard]] std::map<std::string, std::string> reports(const std::string& name) const {
    std::map<std::string, std::string> found;
    for (const auto& entry : fs::directory_iterator(folder / name)) {
      const std::string file = entry.path().filename().string();
      if (file != "ledger") found[file] = folder.read(name + "/" + file);
    }
    return found;
  }

  TemporaryFolder folder;
};

std::int64_t number_in(const Outcome& outcome, std::string_view name) {
  INFO(outcome.out << outcome.err);
  const auto json = base::parse_json(outcome.out);
  REQUIRE(json.ok());
  REQUIRE(json->find(name) != nullptr);
  return json->find(name)->integer().value_or(-1);
}

bool contains(const std::string& text, std::string_view part) {
  INFO(text);
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("parts scanned apart and joined give the bytes of the whole run") {
  const Desk desk;
  REQUIRE(desk.scan({"games.pgn", "-o", "whole"}).exit_code == 0);
  for (const std::string part : {"2", "1", "3"}) {
    const Outcome outcome = desk.scan({"games.pgn", "-o", "part" + part, "--part", part + "/3"});
    INFO(outcome.err);
    REQUIRE(outcome.exit_code == 0);
  }
  const Outcome joined = desk.kairos({"join", "part3", "part1/ledger", "part2", "-o", "joined"});
  INFO(joined.err);
  CHECK(joined.exit_code == 0);
  CHECK(desk.reports("joined") == desk.reports("whole"));
  CHECK(desk.folder.read("joined/ledger") == desk.folder.read("whole/ledger"));
}

TEST_CASE("joining with a part missing tells which, writes the rest and exits with 1") {
  const Desk desk;
  REQUIRE(desk.scan({"games.pgn", "-o", "part1", "--part", "1/2"}).exit_code == 0);
  const Outcome joined = desk.kairos({"join", "part1", "-o", "joined"});
  CHECK(joined.exit_code == 1);
  CHECK(contains(joined.err, "a part of the run is missing: 2/2"));
  CHECK(desk.reports("joined").contains("report.txt"));
}

TEST_CASE("ledgers that do not belong together are not joined") {
  const Desk desk;
  REQUIRE(desk.scan({"games.pgn", "-o", "a", "--part", "1/2"}).exit_code == 0);
  REQUIRE(desk.scan({"games.pgn", "-o", "b", "--part", "2/2", "--from-move", "2"}).exit_code == 0);
  const Outcome joined = desk.kairos({"join", "a", "b", "-o", "joined"});
  CHECK(joined.exit_code == 3);
  CHECK(contains(joined.err, "its settings"));
  CHECK(desk.kairos({"join", "games.pgn", "-o", "joined"}).exit_code == 3);
  CHECK(desk.kairos({"join", "absent", "-o", "joined"}).exit_code == 3);
}

TEST_CASE("more games in the folder later: the new ones are studied, the report is of all") {
  const Desk desk;
  const std::string all(small_games);
  const auto half = all.find("[Event", all.find("[Event", 1) + 1);
  fs::create_directory(desk.folder / "season");
  desk.folder.write("season/1.pgn", all.substr(0, half));
  REQUIRE(desk.scan({"season", "-o", "out"}).exit_code == 0);
  desk.folder.write("season/2.pgn", all.substr(half));
  const Outcome more = desk.scan({"season", "-o", "out"});
  INFO(more.err);
  CHECK(more.exit_code == 0);
  CHECK(contains(more.err, "2 known from before"));
  REQUIRE(desk.scan({"season", "-o", "fresh"}).exit_code == 0);
  CHECK(desk.reports("out") == desk.reports("fresh"));
}

TEST_CASE("reports that lie in the scanned folder are no games") {
  const Desk desk;
  const Outcome first = desk.scan({".", "-o", ".", "--json"});
  REQUIRE(number_in(first, "games") == 5);
  CHECK(fs::exists(desk.folder / "annotated.pgn"));
  CHECK(number_in(desk.scan({".", "-o", ".", "--json"}), "games") == 5);
}

TEST_CASE("games come from standard input as well") {
  const Desk desk;
  const Outcome outcome = desk.scan({"-", "--json"}, std::string(small_games));
  CHECK(outcome.exit_code == 0);
  CHECK(number_in(outcome, "games") == 5);
  CHECK(number_in(outcome, "skipped") == 1);
  CHECK(fs::exists(desk.folder / "kairos-out/report.txt"));
}

TEST_CASE("one player's scan is about that player, whichever way the name is written") {
  const Desk desk;
  const Outcome one = desk.scan({"games.pgn", "--player", "Marek, Tom", "-o", "one", "--json"});
  CHECK(number_in(one, "studied") == 3);
  const Outcome other = desk.scan({"games.pgn", "--player", "tom marek", "-o", "other"});
  CHECK(other.exit_code == 0);
  CHECK(desk.reports("one") == desk.reports("other"));
  const Outcome nobody = desk.scan({"games.pgn", "--player", "Cedar", "-o", "nobody"});
  CHECK(nobody.exit_code == 2);
  CHECK(contains(nobody.err, "no player in these games is called \"Cedar\""));
}

TEST_CASE("a name that may be two people is refused with both") {
  const Desk desk;
  desk.folder.write("two.pgn",
                    "[White \"Rosin, Ada\"]\n[Black \"Rosin, Bea\"]\n[Result \"*\"]\n\n1. e4 *\n");
  const Outcome outcome = desk.scan({"two.pgn", "--player", "Rosin"});
  CHECK(outcome.exit_code == 2);
  CHECK(contains(outcome.err, "Rosin, Ada; Rosin, Bea"));
}

TEST_CASE("other settings in the same folder are refused with the difference") {
  const Desk desk;
  REQUIRE(desk.scan({"games.pgn", "-o", "out"}).exit_code == 0);
  const auto before = desk.reports("out");
  const Outcome other = desk.scan({"games.pgn", "-o", "out", "--swing-cost", "0.2"});
  CHECK(other.exit_code == 3);
  CHECK(contains(other.err, "swing=0.2200 then, swing=0.2000 now"));
  CHECK(desk.reports("out") == before);
}

TEST_CASE("a ledger of another evaluation or other definitions is refused and stays as it is") {
  const Desk desk;
  REQUIRE(desk.scan({"games.pgn", "-o", "out"}).exit_code == 0);
  const std::string ledger = desk.folder.read("out/ledger");
  const auto reports = desk.reports("out");
  const auto with_head = [&ledger](const std::regex& member, const std::string& other) {
    std::vector<std::string> payloads = payloads_of(ledger);
    payloads.front() = std::regex_replace(payloads.front(), member, other);
    return ledger_of(payloads);
  };
  const auto check_refused = [&](const std::string& old, const std::string& difference) {
    REQUIRE(old != ledger);
    desk.folder.write("out/ledger", old);
    const Outcome outcome = desk.scan({"games.pgn", "-o", "out"});
    CHECK(outcome.exit_code == 3);
    CHECK(outcome.out.empty());
    CHECK(contains(outcome.err,
                   "out/ledger: the ledger's games were judged by another evaluation or other "
                   "definitions: " +
                       difference));
    CHECK(contains(outcome.err, "scan the games again into another folder with -o"));
    CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
    CHECK(desk.folder.read("out/ledger") == old);
    CHECK(desk.reports("out") == reports);
  };
  check_refused(with_head(std::regex("\"evaluation\":\"[0-9a-f]{8}\""), R"("evaluation":"dead")"),
                "evaluation dead, not ");
  check_refused(with_head(std::regex("\"definitions\":[0-9]+"), R"("definitions":99)"),
                "definitions 99, not ");
  desk.folder.write("out/ledger", ledger);
  CHECK(desk.scan({"games.pgn", "-o", "out"}).exit_code == 0);
}

TEST_CASE("a folder with a report but no ledger is left alone") {
  const Desk desk;
  fs::create_directory(desk.folder / "out");
  desk.folder.write("out/report.txt", "mine");
  const Outcome outcome = desk.scan({"games.pgn", "-o", "out"});
  CHECK(outcome.exit_code == 3);
  CHECK(contains(outcome.err, "the folder holds the results of another run"));
  CHECK(desk.folder.read("out/report.txt") == "mine");
}

TEST_CASE("a second scan in a folder is refused while the first is at work") {
  const Desk desk;
  const Words words = {"scan", "games.pgn", "-o", "out", "--survey-nodes", "5000000"};
  Running first({words, desk.folder.path(), "", {}});
  const auto has_begun = [&] {
    std::error_code not_yet;
    fs::directory_iterator entries(desk.folder / "out", not_yet);
    return std::any_of(begin(entries), end(entries), [](const fs::directory_entry& entry) {
      return entry.path().filename().string().starts_with("report.txt.");
    });
  };
  while (!first.is_over() && !has_begun()) {
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  const Outcome second = desk.kairos(words);
  CHECK(second.exit_code == 3);
  CHECK(contains(second.err, "another kairos works in this folder"));
  first.send(SIGKILL);
  first.wait();
  // What the killed one left behind is taken away by the next that works there.
  CHECK(has_begun());
  desk.folder.write("out/ledger.4711.tmp", "from a ledger that was being written anew");
  fs::remove(desk.folder / "out/ledger");
  REQUIRE(desk.scan({"games.pgn", "-o", "out"}).exit_code == 0);
  for (const auto& [name, bytes] : desk.reports("out")) CHECK_FALSE(name.ends_with(".tmp"));
}

TEST_CASE("when the time is up the report says what was not done, and the next run goes on") {
  const Desk desk;
  const Outcome late = desk.scan({"games.pgn", "-o", "out", "--hours", "0.000001"});
  CHECK(late.exit_code == 0);
  CHECK(contains(late.err, "the time is up"));
  CHECK(contains(desk.folder.read("out/report.txt"), "NOT DONE: 4 games"));
  REQUIRE(desk.scan({"games.pgn", "-o", "out"}).exit_code == 0);
  REQUIRE(desk.scan({"games.pgn", "-o", "fresh"}).exit_code == 0);
  CHECK(desk.reports("out") == desk.reports("fresh"));
}

TEST_CASE("options that make no sense are told before any work") {
  const Desk desk;
  for (const Words& words :
       {Words{"--part", "3/2"}, Words{"--until", "25:00"}, Words{"--hours", "-1"},
        Words{"--effort", "heavy"}, Words{"--hours", "1", "--until", "07:00"}}) {
    CAPTURE(words);
    Words all = {"games.pgn", "-o", "out"};
    all.insert(all.end(), words.begin(), words.end());
    CHECK(desk.scan(all).exit_code == 2);
    CHECK_FALSE(fs::exists(desk.folder / "out"));
  }
}

TEST_CASE("a log that cannot be written is told at the end; the results are whole, the code is 1") {
  const Desk desk;
  const Outcome full = desk.scan({"games.pgn", "-o", "full", "--log", "/dev/full"});
  CHECK(full.exit_code == 1);
  CHECK(contains(full.err, "error: /dev/full: the disk is full: "));
  CHECK(contains(full.err, "the log is not whole, the results are"));
  CHECK_FALSE(contains(full.err, "LOG ERROR"));
  REQUIRE(desk.scan({"games.pgn", "-o", "out", "--log", "new/folder/run.log"}).exit_code == 0);
  CHECK(contains(desk.folder.read("new/folder/run.log"), " to study; "));
  CHECK(desk.reports("full") == desk.reports("out"));
  // Where something else is wrong that decides.
  CHECK(desk.scan({"missing.pgn", "--log", "/dev/full"}).exit_code == 3);
  CHECK(desk.scan({"games.pgn", "--log", "games.pgn/run.log"}).exit_code == 3);
}

TEST_CASE("--log writes what happened to a file, with the time, also when nothing is shown") {
  TemporaryFolder folder;
  folder.write("games.pgn", "[White \"A\"]\n[Black \"B\"]\n\n1. e4 e5 2. Nf3 Nc6 3. Kf5 *\n");
  const std::vector<std::string> arguments = {
      "scan", "games.pgn",      "-o",  "out", "--log", "run.log", "--quiet", "--survey-nodes",
      "1000", "--verify-nodes", "1000"};
  const Outcome outcome = run_program({arguments, folder.path(), "", {}});
  REQUIRE(outcome.exit_code == 0);
  CHECK(outcome.err.empty());
  const std::string log = folder.read("run.log");
  CHECK(log.find("scan of games.pgn into out") != std::string::npos);
  CHECK(log.find("1 game to study") != std::string::npos);
  std::istringstream lines(log);
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    REQUIRE(line.size() > 20);
    CHECK(line[4] == '-');  // 2026-11-25 22:24:06
    CHECK(line[13] == ':');
  }
  // What is wrong has the same word in front as on the screen.
  CHECK(log.find(" warning: games.pgn:4") != std::string::npos);
  // A second run adds to it.
  REQUIRE(run_program({arguments, folder.path(), "", {}}).exit_code == 0);
  CHECK(folder.read("run.log").starts_with(log));
}
