// kairos solve: what is asked in an EPD suite, and whether it was found.
#include <catch2/catch.hpp>

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos::test;

namespace {

// Positions with one plain answer each, made by hand.
constexpr const char* easy_suite =
    // back rank mate in one
    "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; id \"back rank\";\n"
    // a queen for nothing
    "4k3/8/8/3q4/4P3/8/8/4K3 w - - bm exd5; id \"free queen\";\n"
    // taking the pawn is mated on the back rank
    "3r2k1/5ppp/8/8/8/8/p4PPP/R5K1 w - - am Rxa2; id \"leave it\";\n"
    // two rooks roll the king up
    "7k/8/8/8/8/8/R7/1R4K1 w - - dm 2; id \"ladder\";\n";

Outcome solve(const TemporaryFolder& folder, std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), "solve");
  return run_program({arguments, folder.path(), "", {}});
}

}  // namespace

TEST_CASE("bm, am and dm are each held to what they ask") {
  TemporaryFolder folder;
  folder.write("easy.epd", easy_suite);
  const Outcome outcome = solve(folder, {"easy.epd", "--nodes", "20000"});
  INFO(outcome.out);
  CHECK(outcome.exit_code == 0);
  CHECK(outcome.out == "solved 4 of 4\n");
}

TEST_CASE("a failed position is told with what was asked and what was played") {
  TemporaryFolder folder;
  folder.write("wrong.epd", "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm h3; id \"not so\";\n" +
                                std::string(easy_suite));
  const Outcome outcome = solve(folder, {"wrong.epd", "--nodes", "20000"});
  CHECK(outcome.exit_code == 1);
  const auto lines = lines_of(outcome.out);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].starts_with("failed: wrong.epd:1: not so: bm h3, played Rd8# (mate in 1, depth "));
  CHECK(lines[1] == "solved 4 of 5");
  CHECK(solve(folder, {"wrong.epd", "--nodes", "20000", "--expect", "4"}).exit_code == 0);
}

TEST_CASE("a line that asks nothing or cannot be read counts as not solved") {
  TemporaryFolder folder;
  folder.write("bad.epd",
               "4k3/8/8/8/8/8/8/4K3 w - - id \"nothing asked\";\n"
               "4k3/8/8/8/8/8/8/8 w - - bm Kd2;\n"
               "4k3/8/8/8/8/8/8/4K3 w - - bm Kd7;\n"
               "# a remark\n");
  const Outcome outcome = solve(folder, {"bad.epd"});
  CHECK(outcome.exit_code == 1);
  const auto lines = lines_of(outcome.out);
  REQUIRE(lines.size() == 4);
  for (std::size_t i = 0; i < 3; ++i) {
    INFO(lines[i]);
    CHECK(lines[i].starts_with("failed: bad.epd:" + std::to_string(i + 1)));
  }
  CHECK(lines[3] == "solved 0 of 3");
}

TEST_CASE("the same bytes come out with any number of threads") {
  TemporaryFolder folder;
  folder.write("wrong.epd", "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm h3; id \"not so\";\n" +
                                std::string(easy_suite) + easy_suite);
  const std::string one = solve(folder, {"wrong.epd", "--nodes", "5000", "--threads", "1"}).out;
  CHECK(one == solve(folder, {"wrong.epd", "--nodes", "5000", "--threads", "3"}).out);
  CHECK(one == solve(folder, {"wrong.epd", "--nodes", "5000", "--threads", "16"}).out);
}

TEST_CASE("--json tells of every position and the total") {
  TemporaryFolder folder;
  folder.write("easy.epd", easy_suite);
  const auto lines = lines_of(solve(folder, {"easy.epd", "--json", "--nodes", "20000"}).out);
  REQUIRE(lines.size() == 5);
  CHECK(lines[0].find("\"id\":\"back rank\",\"solved\":true") != std::string::npos);
  CHECK(lines[0].find("\"stable_nodes\":") != std::string::npos);
  CHECK(lines[0].find("\"stable_depth\":") != std::string::npos);
  CHECK(lines[4] == "{\"type\":\"total\",\"solved\":4,\"positions\":4}");
}
