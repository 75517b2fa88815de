// Standard streams that are closed, full or gone: what is written elsewhere must not suffer.
#include <catch2/catch.hpp>

#include "support/cli_program.hpp"
#include "support/small_games.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos::test;

namespace {

constexpr const char* scan =
    "kairos scan games.pgn --survey-nodes 500 --verify-nodes 2000 --puzzle-nodes 2000 -o ";

}  // namespace

// The ledger was opened as descriptor 2, and the first message overwrote its head.
TEST_CASE("a closed standard stream is not taken by the ledger") {
  const TemporaryFolder folder;
  folder.write("games.pgn", std::string(small_games));
  const auto shell = [&folder](const std::string& command) {
    return run_shell(command, folder.path());
  };
  REQUIRE(shell(std::string(scan) + "whole").exit_code == 0);
  const std::string ledger = folder.read("whole/ledger");
  struct Closed {
    std::string streams;
    int exit_code;
  };
  // A summary that cannot be printed is an error, but the ledger and the reports are there.
  for (const auto& [streams, exit_code] :
       {Closed{"2>&-", 0}, Closed{"<&-", 0}, Closed{"<&- 2>&-", 0}, Closed{">&-", 3},
        Closed{"<&- >&- 2>&-", 3}}) {
    CAPTURE(streams);
    const Outcome outcome = shell(std::string(scan) + "out " + streams);
    CHECK(outcome.exit_code == exit_code);
    CHECK((folder.read("out/ledger") == ledger));
    CHECK((folder.read("out/report.txt") == folder.read("whole/report.txt")));
    const Outcome again = shell(std::string(scan) + "out");
    CHECK(again.exit_code == 0);
    CHECK(again.err.find("known from before") != std::string::npos);
    REQUIRE(shell("rm -r out").exit_code == 0);
  }
}

TEST_CASE("games from a closed standard input cannot be read") {
  const Outcome outcome = run_shell("kairos check - <&-", ".");
  CHECK(outcome.exit_code == 3);
  CHECK(outcome.err.find("error: standard input: cannot read") != std::string::npos);
}
