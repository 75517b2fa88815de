// Whatever the input, check and scan stay under 400 MB, and no other reader grows with it. Each
// file here is made of one thing repeated, and took more than that once: up to 100 bytes of memory
// a byte. Sizes are such that the old growth shows and a run takes seconds.
#include <catch2/catch.hpp>
#include <functional>

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos::test;

namespace {

constexpr long most_kilobytes = 400'000;
constexpr std::size_t megabyte = 1'000'000;

// Written piece by piece: a child begins with the memory of its parent.
void write_games(const TemporaryFolder& folder, const std::string& name, std::size_t bytes,
                 const std::function<std::string(std::size_t)>& game) {
  std::ofstream file(folder / name, std::ios::binary);
  for (std::size_t i = 0, written = 0; written < bytes; ++i) {
    const std::string text = game(i);
    file << text;
    written += text.size();
  }
}

// Reads all, studies what the first second leaves time for.
const std::string quick_scan =
    "kairos scan -q --survey-nodes 1 --verify-nodes 1 --puzzle-nodes 1 --threads 1 --hours 0.0003 "
    "games.pgn -o out";

void check_bound(const Outcome& outcome, long most = most_kilobytes) {
  INFO(outcome.err.substr(0, 1'000));
  CAPTURE(outcome.exit_code);
  CHECK(outcome.exit_code < 128);
  CHECK(outcome.peak_kilobytes > 1'000);
  CHECK(outcome.peak_kilobytes < most);
}

struct Hostile {
  const char* what;
  std::size_t bytes;
  std::function<std::string(std::size_t)> game;
};

std::string tag(const std::string& name, const std::string& value) {
  return "[" + name + " \"" + value + "\"]\n";
}

const std::vector<Hostile> files = {
    {"games with an illegal move", 12 * megabyte,
     [](std::size_t) { return tag("Event", "x") + "\n1. e4 e5 2. Ke3 1-0\n\n"; }},
    {"the same empty game", 12 * megabyte,
     [](std::size_t) { return tag("Event", "x") + "\n*\n\n"; }},
    {"games without a move, of players of their own", 12 * megabyte,
     [](std::size_t i) { return tag("White", "p" + std::to_string(i)) + "\n*\n\n"; }},
    {"games of players with names of quotes", 45 * megabyte,
     [](std::size_t i) {
       std::string name = std::to_string(i);
       while (name.size() < 400) name += "\\\"";
       return tag("White", "w" + name) + tag("Black", "b" + name) + "\n*\n\n";
     }},
    {"games of two unlike moves, of players of their own", 12 * megabyte,
     [](std::size_t i) {
       return tag("White", "p" + std::to_string(i)) + tag("Black", "q" + std::to_string(i)) +
              "\n1. e4 e5 *\n\n";
     }},
    {"games with the longest tags", 40 * megabyte,
     [](std::size_t i) {
       const std::string number = std::to_string(i);
       return tag("White", number + std::string(8'000, 'w')) +
              tag("Black", number + std::string(8'000, 'b')) +
              tag("Event", std::string(8'000, '&')) + "\n1. e4 *\n\n";
     }},
    {"games whose FEN is letters", 20 * megabyte,
     [](std::size_t i) {
       return tag("FEN", std::to_string(i) + std::string(8'000, 'x')) + "\n1. e4 *\n\n";
     }},
    {"games whose FEN is wrong at every letter", 20 * megabyte,
     [](std::size_t) {
       return tag("FEN", "8/8/8/8/8/8/8/8 w " + std::string(8'000, 'b') + " - 0 1") +
              "\n1. e4 *\n\n";
     }},
    {"games of another variant", 12 * megabyte,
     [](std::size_t) { return tag("Variant", "x") + "\n1. e4 *\n\n"; }},
    {"games with a broken variation at every move", 12 * megabyte,
     [](std::size_t) {
       std::string text = "1. e4 ";
       for (int i = 0; i < 20'000; ++i) text += "(1. Ke5) ";
       return text + "*\n\n";
     }},
    {"lines that belong to no game", 20 * megabyte,
     [](std::size_t i) { return "? " + std::to_string(i) + "\n\n"; }},
};

}  // namespace

TEST_CASE("check and scan take less than 400 MB of whatever games", "[memory]") {
  for (const Hostile& hostile : files) {
    INFO(hostile.what);
    const TemporaryFolder folder;
    write_games(folder, "games.pgn", hostile.bytes, hostile.game);
    check_bound(run_shell("kairos check games.pgn > found", folder.path()));
    check_bound(run_shell(quick_scan, folder.path()));
  }
}

TEST_CASE("a gzip file of a thousandth of its text is read in the memory of any other",
          "[memory]") {
  const TemporaryFolder folder;
  const auto packed =
      run_shell("head -c 300000000 /dev/zero | gzip -1 > games.pgn.gz", folder.path());
  REQUIRE(packed.exit_code == 0);
  check_bound(run_shell("kairos check games.pgn.gz", folder.path()), 64'000);
  check_bound(run_shell("kairos scan -q games.pgn.gz -o out", folder.path()), 64'000);
}

TEST_CASE("no reader of lines keeps what has no end", "[memory]") {
  const TemporaryFolder folder;
  constexpr long few = 100'000;
  const std::string position = "4k3/8/8/8/8/8/4P3/4K3 w - - ";
  folder.write("one.epd", position + "bm e4; id \"x\";\n");
  // One line of 60 MB of x, with and without a position in front.
  const std::string endless = "head -c 60000000 /dev/zero | tr '\\000' x";
  for (const std::string& command : std::vector<std::string>{
           "kairos solve /dev/zero", "kairos quiz /dev/zero",
           "kairos weigh --epd /dev/zero --id x e4", "kairos tally --epd /dev/zero --id x",
           "kairos habits --player x /dev/zero", "kairos habits --players /dev/zero x",
           "kairos join /dev/zero -o out", endless + " | kairos solve -",
           endless + " | kairos perft --epd /dev/stdin",
           "(printf '" + position + "bm e4; c0 \"'; " + endless + ") | kairos solve -",
           endless + " | kairos tally --epd one.epd --id x --nodes 1000",
           endless + " | kairos quiz one.epd --today 2026-01-01"}) {
    INFO(command);
    const Outcome outcome = run_shell("ulimit -v 4000000; " + command + " > answer", folder.path());
    check_bound(outcome, few);
    INFO(outcome.err);
    CHECK(folder.read("answer").size() + outcome.err.size() < 10'000);
  }
  // A ledger whose second line has no end: kept are at most the 64 MB of a record.
  const Outcome outcome = run_shell("(printf 'kairos ledger 2\\n'; " + endless + "; " + endless +
                                        ") > kairos; kairos join kairos -o out",
                                    folder.path());
  CHECK(outcome.exit_code == 3);
  check_bound(outcome, 300'000);
}
