// kairos perft: counts, divides, and checks files of counts.
#include <catch2/catch.hpp>

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos::test;

namespace {
Outcome perft(std::vector<std::string> arguments, const std::string& folder = ".") {
  arguments.insert(arguments.begin(), "perft");
  return run_program({arguments, folder, "", {}});
}
}  // namespace

TEST_CASE("perft counts from the start position unless told otherwise") {
  // Source: tests/perft/standard.epd, first line.
  CHECK(perft({"4"}).out == "197281\n");
  CHECK(perft({"0"}).out == "1\n");
  CHECK(perft({"--fen", "8/8/8/8/8/4k3/4p3/4K3 w - - 0 1", "2"}).out == "0\n");
}

TEST_CASE("--divide prints the count of each move, and they add up to the last line") {
  const Outcome outcome = perft({"2", "--divide"});
  const auto lines = lines_of(outcome.out);
  REQUIRE(lines.size() == 21);
  CHECK(lines.back() == "400");
  int sum = 0;
  for (std::size_t i = 0; i < 20; ++i) sum += std::stoi(lines[i].substr(lines[i].find(' ')));
  CHECK(sum == 400);
}

TEST_CASE("a file of right counts passes") {
  const Outcome outcome =
      perft({"--epd", KAIROS_TEST_DIR "/perft/standard.epd", "--max-depth", "2"});
  CHECK(outcome.exit_code == 0);
  CHECK(lines_of(outcome.out).back() == "174 passed, 0 failed");
  CHECK(lines_of(outcome.out).size() == 1);
}

TEST_CASE("a wrong count and a damaged line are told and counted") {
  TemporaryFolder folder;
  folder.write("counts.epd",
               "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1 ;D1 20 ;D2 401\r\n"
               "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1 ;D1 20 ;D2 400\r\n"
               "\r\n"
               "8/8/8/8/8/8/8/8 w - - 0 1 ;D1 0\r\n"
               "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1 ;D1 many\r\n");
  const Outcome outcome = perft({"--epd", "counts.epd"}, folder.path());
  CHECK(outcome.exit_code == 1);
  const auto lines = lines_of(outcome.out);
  REQUIRE(lines.size() == 4);
  CHECK(lines[0].find("depth 2: counted 400, expected 401") != std::string::npos);
  CHECK(lines[1].find("counts.epd:4") != std::string::npos);
  CHECK(lines[2].find("counts.epd:5") != std::string::npos);
  CHECK(lines[3] == "1 passed, 3 failed");
}

TEST_CASE("counts deeper than --max-depth are left out") {
  TemporaryFolder folder;
  folder.write("counts.epd",
               "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1 ;D1 20 ;D9 1\n");
  const Outcome outcome = perft({"--epd", "counts.epd", "--max-depth", "3"}, folder.path());
  CHECK(outcome.exit_code == 0);
  CHECK(outcome.out == "1 passed, 0 failed\n");
}
