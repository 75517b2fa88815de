// SIGINT and SIGTERM while the program waits for input that does not come, or never ends.
#include <catch2/catch.hpp>
#include <csignal>
#include <fcntl.h>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

#include "support/cli_program.hpp"
#include "support/small_games.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos::test;

namespace {

using Words = std::vector<std::string>;

constexpr unsigned long long much = 1 << 22;  // bytes

const std::string puzzle = "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; id \"back rank\";\n";

struct Desk {
  Desk() {
    REQUIRE(::mkfifo((folder / "pipe").c_str(), 0666) == 0);
    folder.write("games.pgn", std::string(small_games));
    folder.write("p.epd", puzzle);
  }
  // Standard input is the FIFO, open but silent.
  [[nodiscard]] Invocation with_open_pipe(const Words& words) const {
    return {words, folder.path(), "", {}, folder / "pipe"};
  }
  TemporaryFolder folder;
};

}  // namespace

// The flag was set, and read() or open() went on waiting. "pipe" has nobody at its other end: there
// it is open() that waits.
TEST_CASE("the first signal ends a program that waits for its input") {
  const Desk desk;
  const int signal_number = GENERATE(SIGINT, SIGTERM);
  for (const Words& words :
       {Words{"scan", "-", "-o", "out"}, Words{"scan", "pipe", "-o", "out"}, Words{"check", "-"},
        Words{"check", "pipe"}, Words{"solve", "-"}, Words{"solve", "pipe"}, Words{"quiz", "pipe"},
        Words{"quiz", "p.epd"}, Words{"perft", "--epd", "pipe"},
        Words{"weigh", "--game", "pipe", "--ply", "1", "e4"},
        Words{"weigh", "--epd", "pipe", "--id", "a", "e4"},
        Words{"tally", "--epd", "pipe", "--id", "a"}, Words{"habits", "pipe", "--player", "A"},
        Words{"join", "pipe", "-o", "out"}}) {
    CAPTURE(signal_number, words);
    const bool on_stdin = words.back() == "-" || words[1] == "-" || words[1] == "p.epd";
    Running running(on_stdin ? desk.with_open_pipe(words)
                             : Invocation{words, desk.folder.path(), "", {}});
    running.wait_until_it_sleeps();
    CHECK(running.obeys(signal_number));
    running.send(SIGKILL);
    CHECK(running.wait() == 130);
  }
}

TEST_CASE("what scan has read from a pipe before the signal is safe in the ledger") {
  const Desk desk;
  const Words scan = {"scan", "-", "-o", "out", "--survey-nodes", "500", "--verify-nodes", "2000"};
  Running running(desk.with_open_pipe(scan));
  const int pipe = ::open((desk.folder / "pipe").c_str(), O_WRONLY | O_CLOEXEC);
  // More than the reader takes before it gives out the first game.
  bool written = true;
  for (int i = 0; i < 1'000; ++i) {
    written = written && ::write(pipe, small_games.data(), small_games.size()) > 0;
  }
  REQUIRE(written);
  const auto has_game = [&desk] {
    return desk.folder.read("out/ledger").find("\"record\":\"game\"") != std::string::npos;
  };
  while (!running.is_over() && !has_game()) ::usleep(1'000);
  running.wait_until_it_sleeps();
  CHECK(running.obeys(SIGTERM));
  running.send(SIGKILL);
  CHECK(running.wait() == 130);
  ::close(pipe);
  const Outcome again = run_program({scan, desk.folder.path(), std::string(small_games), {}});
  INFO(again.err);
  CHECK(again.exit_code == 0);
  CHECK(again.err.find("damaged") == std::string::npos);
  CHECK(again.err.find("torn") == std::string::npos);
}

TEST_CASE("the first signal ends quiz and tally on a line that never ends") {
  const Desk desk;
  const int signal_number = GENERATE(SIGINT, SIGTERM);
  for (const Words& words :
       {Words{"quiz", "p.epd"}, Words{"tally", "--epd", "p.epd", "--id", "back rank"}}) {
    CAPTURE(signal_number, words);
    Running running({words, desk.folder.path(), "", {}, "/dev/zero"});
    while (!running.is_over() && running.bytes_read() < much) ::usleep(1'000);
    running.send(signal_number);
    const auto when_sent = running.bytes_read();
    while (!running.is_over() && running.bytes_read() < when_sent + 100 * much) ::usleep(1'000);
    CHECK(running.is_over());
    running.send(SIGKILL);
    CHECK(running.wait() == 130);
  }
}

TEST_CASE("the first signal ends a program whose output nobody takes") {
  const Desk desk;
  const int pipe = ::open((desk.folder / "pipe").c_str(), O_RDWR | O_NONBLOCK | O_CLOEXEC);
  while (::write(pipe, small_games.data(), 1) == 1) {
  }
  const int signal_number = GENERATE(SIGINT, SIGTERM);
  for (const Words& words : {Words{"quiz", "p.epd"}, Words{"check", "games.pgn"}}) {
    CAPTURE(signal_number, words);
    Running running({words, desk.folder.path(), "", {}, {}, desk.folder / "pipe"});
    running.wait_until_it_sleeps();
    CHECK(running.obeys(signal_number));
    running.send(SIGKILL);
    CHECK(running.wait() == 130);
  }
  ::close(pipe);
}

TEST_CASE("a pipe in a folder of games is left out and told, and read when it is named") {
  const Desk desk;
  const auto shell = [&desk](const std::string& command) {
    return run_shell(command, desk.folder.path());
  };
  REQUIRE(shell("mkdir games && cp games.pgn games/a.pgn && mkfifo games/b.pgn").exit_code == 0);
  const Outcome left_out =
      shell("cat games.pgn > games/b.pgn & kairos check games; code=$?; kill $!; exit $code");
  CHECK(left_out.exit_code == 0);
  CHECK(left_out.out.find("total: 4 read + 1 skipped = 5 games") != std::string::npos);
  CHECK(left_out.err.find("warning: games/b.pgn: is a pipe or a device, not a file") !=
        std::string::npos);
  const Outcome named = shell("cat games.pgn > games/b.pgn & kairos check games/b.pgn");
  CHECK(named.out.find("total: 4 read + 1 skipped = 5 games") != std::string::npos);
}
