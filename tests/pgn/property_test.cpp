// What must hold for any text: the size of the pieces it comes in does not matter, every game is
// accounted for, and what is written reads as it was read. Over the sample files, over the small
// ones cut at every byte, and over samples with bytes changed by chance (seeded).
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <string>
#include <vector>

#include "kairos/base/files.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/pgn/writer.hpp"

#include "pgn/reading.hpp"

using namespace kairos;
using namespace kairos::pgn;

namespace {

std::string sample(const std::string& name) {
  auto text = base::read_file(KAIROS_TEST_DIR "/data/pgn/" + name);
  REQUIRE(text.ok());
  return std::move(text).value();
}

// Small texts: a little of each kind of dirt.
std::vector<std::string> small_samples() {
  const std::string annotated = sample("annotated.pgn");
  const std::string odd = sample("odd-games.pgn");
  return {sample("comment-real.pgn"), annotated.substr(0, 3000), odd.substr(0, 1200),
          "\xEF\xBB\xBF[White \"A \\\"x\\\" \\\\\"]\r\n[Black \"B\"\r\n\r\n1.e4 {a { b } c} $3 (1. "
          "d4 (1. c4 "
          "{x} d5)) e5 ; rest\r\n%x\r\n2.\xC2\xA0Nf3!? 1... Nc6 $1\n3. "
          "Nc3 Nf6\n%Nh3 and what else fills more than the block that the moves before it stand "
          "in\n4. d4 1/2-1/2\r\n\r\nwords\r\n[White "
          "\"B\"]\n[White "
          "\"B\"]\n\n*\n\n1. e4 e5 2. 0-0 e8(Q) exd6e.p. {open\n\n[Event \"C\"]\n(1. c4) 1. d4 ) "
          "-- <x> 0-1 0-1 2. c4 *"};
}

std::string faults_of(const Reading& reading) {
  std::string text;
  for (const base::Fault& fault : reading.faults) text += describe(fault) + '\n';
  return text;
}

// Replays and writes the game, reads that, and compares; false for a game that was refused.
bool reads_back(Game game) {
  base::FaultList ignored;
  const Replay state = replay(game, ignored);
  if (state.state == Replay::State::refused) return false;
  CHECK(game.main_line().size() == state.plies);
  const std::string written = to_pgn(game);
  Reading again = read_all(written);
  REQUIRE(again.games.size() == 1);
  Game& copy = again.games[0];
  const Replay copied = replay(copy, ignored);
  INFO(written);
  CHECK(copied.state == Replay::State::playable);
  CHECK(main_line_moves(copy) == main_line_moves(game));
  CHECK(to_pgn(copy) == written);
  CHECK(copy.nodes.size() == game.nodes.size());
  CHECK(again.faults.empty());
  return true;
}

}  // namespace

TEST_CASE("the size of the pieces that a text comes in does not matter") {
  for (const std::string& sample : small_samples()) {
    // With much behind it the window slides on at every block when the pieces are small.
    for (const std::size_t behind : {0U, 40'000U}) {
      const std::string text = sample + std::string(behind, '\n');
      const Reading at_once = read_all(text);
      for (std::size_t piece = 1; piece <= 64; ++piece) {
        const Reading in_pieces = read_all(text, piece);
        INFO(piece);
        REQUIRE(summary(in_pieces) == summary(at_once));
        REQUIRE(faults_of(in_pieces) == faults_of(at_once));
      }
    }
  }
}

TEST_CASE("a text cut at any byte is read to its end and every game is accounted for") {
  for (const std::string& text : small_samples()) {
    for (std::size_t size = 0; size <= text.size(); ++size) {
      Reading reading = read_all(std::string_view(text).substr(0, size));
      INFO(size << " of " << text.size() << " bytes");
      REQUIRE(reading.games_met == reading.games.size());
      for (Game& game : reading.games) {
        base::FaultList ignored;
        const Replay state = replay(game, ignored);
        REQUIRE(game.main_line().size() == state.plies);
      }
    }
  }
}

TEST_CASE("games read, written and read again are the same games") {
  for (const std::string name :
       {"annotated.pgn", "odd-games.pgn", "comment-real.pgn", "Budapest1913.pgn",
        "crlf-WorldChamp1972.pgn", "backslash-Philidor.pgn"}) {
    INFO(name);
    const Reading reading = read_all(sample(name));
    CHECK_FALSE(reading.games.empty());
    for (const Game& game : reading.games) CHECK(reads_back(game));
  }
}

TEST_CASE("texts with bytes changed by chance are read, and what is read can be written") {
  const unsigned seed = 20261125;
  std::mt19937 random(seed);
  const std::string bytes = "{}()[]<>;%$!?\"\\*.\n\r \t0123456789-/=+#KQRBNabcdefghxO\xC3\xBC";
  for (int round = 0; round < 300; ++round) {
    for (std::string text : small_samples()) {
      for (int change = 0; change < 12; ++change) {
        const std::size_t at = random() % text.size();
        const char c = bytes[random() % bytes.size()];
        if (random() % 3 == 0) {
          text.erase(at, random() % 5);
        } else if (random() % 2 == 0) {
          text.insert(at, 1, c);
        } else {
          text[at] = c;
        }
      }
      INFO("seed " << seed << " round " << round << ":\n" << text);
      const Reading reading = read_all(text, 1 + random() % 100);
      REQUIRE(reading.games_met == reading.games.size());
      for (const Game& game : reading.games) reads_back(game);
    }
  }
}

namespace {

// Anything that a file may hold, over and over to a size between nothing and more than a window.
std::string stretch(std::mt19937& random) {
  const std::vector<std::string> units = {"a",
                                          " ",
                                          "\n",
                                          "\r\n",
                                          ">",
                                          "% ",
                                          "{",
                                          "}",
                                          "{ x }",
                                          ";",
                                          "(",
                                          ")",
                                          "[",
                                          "]",
                                          "[A \"b",
                                          "\"",
                                          "\\",
                                          "e4 ",
                                          "1. e4 ",
                                          "O - ",
                                          "1 ",
                                          "$1",
                                          "1-0 ",
                                          "e8(",
                                          "+",
                                          "<x",
                                          ".",
                                          "9",
                                          "\xE4",
                                          "\xC2\xA0",
                                          "!?",
                                          "*",
                                          "\t",
                                          "(e4 )",
                                          "--",
                                          "e.p.",
                                          "\n%a",
                                          "{}",
                                          "a b",
                                          "\n[A \"b\"]",
                                          "\n[Event \"b\"]",
                                          "\xEF\xBB\xBF"};
  const std::vector<std::size_t> sizes = {1,    2,    30,   63,   64,     65,    130,
                                          1023, 1025, 8191, 8193, 17'400, 40'000};
  const std::string& unit = units[random() % units.size()];
  const std::size_t most = random() % 8 == 0 ? sizes.size() : sizes.size() - 5;
  return repeated(unit, std::max<std::size_t>(1, sizes[random() % most] / unit.size()));
}

std::string long_text(std::mt19937& random) {
  const std::vector<std::string> starts = {"\n",        "\n%", "{",       "\n;",
                                           " ",         "(",   "\n[A \"", "\n\n[Event \"x\"]\n",
                                           "1. e4 e5 ", "\"]", "}\n",     ")"};
  std::string text;
  for (int n = 0; n < 60; ++n) text += starts[random() % starts.size()] + stretch(random);
  return text;
}

}  // namespace

TEST_CASE("texts of all kinds and lengths of parts give the same in pieces of any size") {
  const unsigned seed = 17;
  std::mt19937 random(seed);
  for (int round = 0; round < 60; ++round) {
    const std::string text = long_text(random) + std::string(random() % 2 * 40'000, '\n');
    INFO("seed " << seed << " round " << round << ", " << text.size() << " bytes");
    const Reading at_once = read_all(text);
    CHECK(at_once.games_met == at_once.games.size());
    for (const std::size_t piece : {1U, 63U, 64U, 65U, 4096U, 100'000U}) {
      const Reading in_pieces = read_all(text, piece);
      INFO(piece);
      CHECK((summary(in_pieces) == summary(at_once)));
      CHECK((faults_of(in_pieces) == faults_of(at_once)));
    }
  }
}
