// Limits that the system sets: threads that cannot be started, memory that cannot be had.
#include <catch2/catch.hpp>

#include "support/cli_program.hpp"
#include "support/small_games.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos::test;

namespace {

// A stack of a gigabyte finds no room in half of one: no thread can be started.
const std::string no_thread = "ulimit -s 1000000 && ulimit -v 500000 && ";
// Room for some of 64 threads and their tables, each of which takes 24 MB.
const std::string few_threads = "ulimit -v 300000 && ";
const std::string hardly_memory = "ulimit -v 30000 && ";

constexpr const char* warning = "warning: the system gives no room for so many threads";

const std::string puzzle =
    "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; dm 1; id \"back rank\";\n"
    "7k/8/8/8/8/8/R7/1R4K1 w - - bm Ra7 Rb7; pv Rb7 Kg8 Ra8#; dm 2; id \"ladder\";\n";

const std::string scan =
    "kairos scan games.pgn --survey-nodes 500 --verify-nodes 2000 --puzzle-nodes 2000 -o ";
const std::string solve = "kairos solve p.epd --nodes 2000 ";
const std::string weigh = "kairos weigh --epd p.epd --id ladder --all --nodes 2000 ";
const std::string tally = "kairos tally --epd p.epd --id ladder --nodes 2000 < answers ";

struct Desk {
  Desk() {
    folder.write("games.pgn", std::string(small_games));
    folder.write("p.epd", puzzle);
    folder.write("answers", "anna: Ra7\nbert: Kf1\nclara: Rb7\ndora: Ra8\n");
  }
  [[nodiscard]] Outcome run(const std::string& command) const {
    return run_shell(command, folder.path());
  }
  TemporaryFolder folder;
};

bool warns(const Outcome& outcome) {
  return outcome.err.find(warning) != std::string::npos;
}

}  // namespace

// It ended by std::terminate.
TEST_CASE("a scan goes on with fewer threads, or with none, and finds the same", "[memory]") {
  const Desk desk;
  REQUIRE(desk.run(scan + "free").exit_code == 0);
  for (const std::string& limit : {few_threads, no_thread}) {
    CAPTURE(limit);
    const Outcome outcome = desk.run(limit + scan + "limited --threads 64");
    INFO(outcome.err);
    CHECK(outcome.exit_code == 0);
    CHECK(warns(outcome));
    CHECK((desk.folder.read("limited/ledger") == desk.folder.read("free/ledger")));
    CHECK((desk.folder.read("limited/report.txt") == desk.folder.read("free/report.txt")));
    REQUIRE(desk.run("rm -r limited").exit_code == 0);
  }
}

TEST_CASE("solve, weigh and tally need no thread of their own", "[memory]") {
  const Desk desk;
  for (const std::string& command : {solve, weigh, tally}) {
    CAPTURE(command);
    const Outcome free = desk.run(command + "--threads 1");
    REQUIRE(free.exit_code == 0);
    const Outcome limited = desk.run(no_thread + command + "--threads 4");
    INFO(limited.err);
    CHECK(limited.exit_code == 0);
    CHECK(limited.out == free.out);
    CHECK(warns(limited));
  }
  // The time is up without a thread that looks at the clock.
  const Outcome timed =
      desk.run(no_thread + "kairos weigh --epd p.epd --id ladder Kf1 --seconds 1");
  CHECK(timed.exit_code == 0);
  CHECK(timed.out.find("Kf1") != std::string::npos);
}

TEST_CASE("memory that cannot be had is told as an error", "[memory]") {
  const Desk desk;
  for (const std::string& command : {scan + "out --threads 4", solve + "--threads 2",
                                     weigh + "--threads 2", tally + "--threads 2"}) {
    CAPTURE(command);
    const Outcome outcome = desk.run(hardly_memory + command);
    INFO(outcome.err);
    CHECK(outcome.exit_code == 3);
    CHECK(outcome.out.empty());
    CHECK(outcome.err.find("error: there is not enough memory") != std::string::npos);
  }
}

// It was killed by the signal for that.
TEST_CASE("a file that may not grow is told, and the run goes on when it may") {
  const Desk desk;
  REQUIRE(desk.run(scan + "free").exit_code == 0);
  const Outcome limited = desk.run("ulimit -f 8 && " + scan + "limited");
  INFO(limited.err);
  CHECK(limited.exit_code == 3);
  CHECK(limited.err.find("error: limited/ledger: cannot write: File too large") !=
        std::string::npos);
  const Outcome again = desk.run(scan + "limited");
  CHECK(again.exit_code == 0);
  CHECK(again.err.find("torn") == std::string::npos);
  CHECK((desk.folder.read("limited/report.txt") == desk.folder.read("free/report.txt")));
}
