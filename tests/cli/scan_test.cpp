// kairos scan from outside: the files it leaves, the same bytes in every way of getting there, and
// what an interruption costs.
#include <catch2/catch.hpp>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <map>
#include <set>
#include <sstream>
#include <thread>

#include "kairos/base/files.hpp"
#include "kairos/pgn/epd.hpp"

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

// Two short games with an error each: the scholar's mate, and a queen left hanging.
constexpr const char* two_games =
    "[Event \"Club\"]\n[White \"Amber, Ida\"]\n[Black \"Birch, Jon\"]\n[Result \"1-0\"]\n\n"
    "1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0\n\n"
    "[Event \"Club\"]\n[White \"Birch, Jon\"]\n[Black \"Cedar, Kim\"]\n[Result \"0-1\"]\n\n"
    "1. d4 d5 2. Nf3 Nf6 3. Bf4 e6 4. e3 Bd6 5. Qd3 Bxf4 6. Qa3 Bxe3 7. Qxe3 O-O 8. Nc3 c5 "
    "9. O-O-O Nc6 10. Qg5 h6 11. Qh4 Nd4 0-1\n\n";

std::vector<std::string> scan_arguments(const std::string& out, const std::string& threads) {
  return {"scan",
          "games.pgn",
          "-o",
          out,
          "--threads",
          threads,
          "--survey-nodes",
          "2000",
          "--verify-nodes",
          "4000",
          "--puzzle-nodes",
          "4000"};
}

// Every file of a folder but the ledger.
std::map<std::string, std::string> reports_in(const TemporaryFolder& folder,
                                              const std::string& name) {
  std::map<std::string, std::string> reports;
  for (const auto& entry : std::filesystem::directory_iterator(folder / name)) {
    const std::string file = entry.path().filename().string();
    if (file.find("ledger") == std::string::npos) reports[file] = folder.read(name + "/" + file);
  }
  return reports;
}

}  // namespace

TEST_CASE("a scan leaves its reports and says where they are") {
  TemporaryFolder folder;
  folder.write("games.pgn", two_games);
  const Outcome outcome = run_program({scan_arguments("out", "1"), folder.path(), "", {}});
  INFO(outcome.err);
  REQUIRE(outcome.exit_code == 0);
  const auto reports = reports_in(folder, "out");
  for (const char* name :
       {"report.txt", "puzzles.epd", "puzzles.fen", "moments.jsonl", "annotated.pgn"}) {
    INFO(name);
    CHECK(reports.count(name) == 1);
  }
  CHECK(outcome.out.find("out") != std::string::npos);
  CHECK(reports.at("report.txt").find("Amber") != std::string::npos);
  CHECK_FALSE(reports.at("moments.jsonl").empty());
}

TEST_CASE("every puzzle of the EPD has a legal bm and a legal pv") {
  TemporaryFolder folder;
  folder.write("games.pgn", two_games);
  REQUIRE(run_program({scan_arguments("out", "1"), folder.path(), "", {}}).exit_code == 0);
  for (const std::string& line : lines_of(folder.read("out/puzzles.epd"))) {
    INFO(line);
    const auto epd = pgn::parse_epd(line);
    REQUIRE(epd.ok());
    CHECK(pgn::epd_moves(*epd, "bm").ok());
    CHECK(pgn::epd_line(*epd, "pv").ok());
  }
}

TEST_CASE("the same bytes come out with one thread and with four") {
  TemporaryFolder folder;
  folder.write("games.pgn", two_games);
  REQUIRE(run_program({scan_arguments("one", "1"), folder.path(), "", {}}).exit_code == 0);
  REQUIRE(run_program({scan_arguments("four", "4"), folder.path(), "", {}}).exit_code == 0);
  CHECK(reports_in(folder, "one") == reports_in(folder, "four"));
}

TEST_CASE("a killed scan goes on where it was and ends with the same bytes") {
  TemporaryFolder folder;
  std::string games;
  for (int i = 0; i < 4; ++i) games += two_games;
  folder.write("games.pgn", games);
  // Enough to verify that the kill does not come at the end.
  const auto arguments = [](const std::string& out, const std::string& threads) {
    auto all = scan_arguments(out, threads);
    all[9] = "20000";
    return all;
  };
  REQUIRE(run_program({arguments("whole", "1"), folder.path(), "", {}}).exit_code == 0);
  const auto whole = reports_in(folder, "whole");

  const int signal_number = GENERATE(SIGKILL, SIGINT);
  {
    Running running({arguments("broken", "1"), folder.path(), "", {}});
    // Until some studies are in the ledger, or all (then the kill comes too late, which is no
    // failure: the bytes must be the same all the more).
    const auto has_studies = [&folder] {
      return std::filesystem::exists(folder / "broken/ledger") &&
             folder.read("broken/ledger").find("\"record\":\"moment\"") != std::string::npos;
    };
    while (!running.is_over() && !has_studies()) {
      std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    const bool was_running = !running.is_over();
    if (was_running) running.send(signal_number);
    const int code = running.wait();
    CAPTURE(signal_number, code);
    if (was_running && signal_number == SIGINT) CHECK((code == 130 || code == 0));
  }
  REQUIRE(run_program({arguments("broken", "2"), folder.path(), "", {}}).exit_code == 0);
  CHECK((reports_in(folder, "broken") == whole));
}

TEST_CASE("an interrupted scan exits with 130") {
  TemporaryFolder folder;
  std::string games;
  for (int i = 0; i < 40; ++i) games += two_games;
  folder.write("games.pgn", games);
  auto arguments = scan_arguments("out", "1");
  arguments[7] = "400000";  // survey nodes: minutes of work
  Running running({arguments, folder.path(), "", {}});
  while (!running.is_over() && !std::filesystem::exists(folder / "out")) {
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
  }
  std::this_thread::sleep_for(std::chrono::milliseconds(200));
  running.send(SIGINT);
  CHECK(running.wait() == 130);
}

TEST_CASE("a folder with the results of other games is not written over") {
  TemporaryFolder folder;
  folder.write("games.pgn", two_games);
  REQUIRE(run_program({scan_arguments("out", "1"), folder.path(), "", {}}).exit_code == 0);
  const auto before = reports_in(folder, "out");
  folder.write("games.pgn", "[Event \"Other\"]\n\n1. e4 e5 2. Nf3 *\n");
  const Outcome outcome = run_program({scan_arguments("out", "1"), folder.path(), "", {}});
  INFO(outcome.err);
  CHECK(outcome.exit_code != 0);
  CHECK(outcome.err.find("error:") != std::string::npos);
  CHECK(reports_in(folder, "out") == before);
}

TEST_CASE("--strict gives 1 when a game was not whole") {
  TemporaryFolder folder;
  folder.write("games.pgn", std::string(two_games) + "[Event \"Cut\"]\n\n1. e4 e5 2. Ke3 *\n");
  auto arguments = scan_arguments("out", "1");
  CHECK(run_program({arguments, folder.path(), "", {}}).exit_code == 0);
  arguments.emplace_back("--strict");
  CHECK(run_program({arguments, folder.path(), "", {}}).exit_code == 1);
}

TEST_CASE("the set of puzzles can be held to one player, and to what was missed or found",
          "[slow]") {
  TemporaryFolder folder;
  folder.write("games.pgn", base::read_file(KAIROS_SOURCE_DIR "/samples/club_open.pgn").value());
  const auto ids_with = [&](const std::vector<std::string>& options) {
    std::vector<std::string> arguments = scan_arguments("out", "2");
    arguments[7] = "500", arguments[11] = "20000";  // nodes of the survey, of a puzzle
    arguments.insert(arguments.end(), options.begin(), options.end());
    const Outcome run = run_program({arguments, folder.path(), "", {}});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    std::multiset<std::string> positions;
    std::istringstream lines(folder.read("out/puzzles.fen"));
    for (std::string line; std::getline(lines, line);) {
      if (!line.empty()) positions.insert(line);
    }
    return positions;
  };
  const auto all = ids_with({}), missed = ids_with({"--missed"}), found = ids_with({"--found"});
  CHECK_FALSE(missed.empty());
  CHECK_FALSE(found.empty());
  CHECK(missed.size() + found.size() == all.size());
  for (const std::string& position : missed) CHECK(found.count(position) == 0);
  const auto of_one = ids_with({"--from", "hobbledale"});
  CHECK_FALSE(of_one.empty());
  CHECK(of_one.size() < all.size());
  for (const std::string& position : of_one) CHECK(all.count(position) == 1);
  std::vector<std::string> both = scan_arguments("out", "2");
  both.insert(both.end(), {"--missed", "--found"});
  CHECK(run_program({both, folder.path(), "", {}}).exit_code == 2);
}
