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
    for (const std::size_t behind : {0, 40'000}) {
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
