// Legal replay: what is played, where a game is cut, and what is refused.
#include "kairos/pgn/replay.hpp"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "kairos/rules/fen.hpp"

#include "pgn/reading.hpp"

using namespace kairos;
using namespace kairos::pgn;
using base::Code;
using State = Replay::State;

namespace {

struct Replayed {
  Game game;
  Replay replay;
  std::vector<base::Fault> faults;
};

Replayed replayed(std::string_view text) {
  Reading reading = read_all(text);
  REQUIRE(reading.games.size() == 1);
  base::FaultList faults;
  Replayed result{std::move(reading.games[0]), {}, {}};
  result.replay = replay(result.game, faults);
  result.faults = std::move(faults.faults);
  return result;
}

std::string with_tags(std::string_view tags, std::string_view moves) {
  return std::string(tags) + "\n\n" + std::string(moves) + "\n";
}

}  // namespace

TEST_CASE("a legal game is played to its last position") {
  const Replayed r = replayed("1. e4 e5 2. 0-0-0 *");
  CHECK(r.replay.state == State::cut);
  const Replayed scholar = replayed("1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6?? 4. Qxf7# 1-0");
  CHECK(scholar.replay.state == State::playable);
  CHECK(scholar.replay.plies == 7);
  CHECK(scholar.faults.empty());
  const auto line = scholar.game.main_line();
  const std::string last = rules::to_fen(position_at(scholar.game, line.back()));
  // By hand: the standard scholar's mate.
  CHECK(last == "r1bqkb1r/pppp1Qpp/2n2n2/4p3/2B1P3/8/PPPP1PPP/RNB1K1NR b KQkq - 0 4");
  CHECK(rules::to_fen(scholar.replay.last) == last);
  CHECK(main_line_moves(scholar.game).size() == 7);
}

TEST_CASE(
    "the first illegal move of the main line cuts the game there, with everything behind it") {
  const Replayed r = replayed("1. e4 e5 (1... c5 2. Nf3) 2. Bf5 {x} (2. Nf3 Nc6) 2... Nf6 *");
  CHECK(r.replay.state == State::cut);
  CHECK(r.replay.plies == 2);
  REQUIRE(r.replay.fault);
  CHECK(r.replay.fault->code == Code::illegal_move);
  CHECK(r.replay.fault->detail == "2. Bf5: no bishop on c1 and f1 can go to f5");
  CHECK(r.replay.fault->place == base::Place{"test.pgn", 1, 30, 1});
  CHECK(tree_of(r.game) == "e4 e5 (c5 Nf3)");
  CHECK(rules::to_fen(r.replay.last) ==
        rules::to_fen(position_at(r.game, r.game.main_line().back())));
}

TEST_CASE("an illegal move in a variation cuts that variation and is told") {
  const Replayed r = replayed(
      "1. e4 (1. d4 d5 2. c5 (2. c4 e6) 2... e6) (1. Ke2 e5) (1. c4 (1. e9) e5) e5 (1... c5 {kept} "
      "2. Nf3 Nf3) 2. Nf3 *");
  CHECK(r.replay.state == State::playable);
  CHECK(tree_of(r.game) == "e4 (d4 d5) (c4 e5) e5 (c5 {kept} Nf3) Nf3");
  REQUIRE(r.faults.size() == 4);
  CHECK(r.faults[0].detail == "2. c5: no pawn can step to c5");
  CHECK(r.faults[1].detail == "1. Ke2: White has a man on e2 already");
  CHECK(r.faults[2].detail == "1. e9");
  CHECK(r.faults[3].detail == "2... Nf3: no knight on b8 and g8 can go to f3");
  for (NodeId id = 1; id < r.game.nodes.size(); ++id) {
    CHECK(r.game.nodes[id].move);
    CHECK(r.game.nodes[id].parent < id);
  }
}

TEST_CASE("null moves are played in variations and end the main line") {
  CHECK(tree_of(replayed("1. e4 (1. -- e5 2. Nf3) e5 *").game) == "e4 (-- e5 Nf3) e5");
  const Replayed r = replayed("1. e4 -- 2. d4 *");
  CHECK(r.replay.state == State::cut);
  CHECK(r.replay.plies == 1);
}

TEST_CASE(
    "the start position comes from the FEN tag, with SetUp or without, with Black to move too") {
  const std::string fen = "[FEN \"4k3/8/8/8/8/8/4p3/K7 b - - 0 40\"]";
  for (const std::string& tags : {fen, "[SetUp \"1\"]\n" + fen, "[SetUp \"0\"]\n" + fen}) {
    const Replayed r = replayed(with_tags(tags, "40... e1=Q+ 41. Ka2 *"));
    CHECK(r.replay.state == State::playable);
    CHECK(r.replay.plies == 2);
    CHECK(r.game.start.side_to_move() == rules::black);
  }
  const Replayed bad = replayed(with_tags("[FEN \"4k3/8/8 w - - 0 1\"]", "1. Ka2 *"));
  CHECK(bad.replay.state == State::refused);
  REQUIRE(bad.replay.fault);
  CHECK(bad.replay.fault->code == Code::setup_bad);
  // No FEN at all, although its third word is of letters that castling rights may have.
  const Replayed words = replayed(with_tags("[FEN \"not a fen\"]", "1. Ka2 *"));
  REQUIRE(words.replay.fault);
  CHECK(words.replay.fault->code == Code::setup_bad);
}

TEST_CASE("a game that begins where nobody can know is refused, not played from the start") {
  // SetUp is 1 and its FEN is missing, empty, unknown, damaged or named in another way.
  for (const std::string fen : {"", "[FEN \"\"]\n", "[FEN \"?\"]\n", "[FEN ]\n", "[Fen \"x\"]\n"}) {
    const Replayed r = replayed(with_tags("[SetUp \"1\"]\n" + fen, "1. e4 *"));
    INFO(fen);
    CHECK(r.replay.state == State::refused);
    REQUIRE(r.replay.fault);
    CHECK(r.replay.fault->code == Code::setup_missing);
    CHECK(r.replay.fault->place == base::Place{"test.pgn", 1, 1, 1});
  }
  for (const std::string setup : {"", "0", "?"}) {
    CHECK(replayed(with_tags("[SetUp \"" + setup + "\"]", "1. e4 *")).replay.plies == 1);
  }
}

TEST_CASE("only standard chess is played") {
  for (const std::string name : {"Standard", "CHESS", "normal", "From Position", "?", ""}) {
    CHECK(replayed(with_tags("[Variant \"" + name + "\"]", "1. e4 *")).replay.state ==
          State::playable);
  }
  for (const std::string name : {"Chess960", "Atomic", "Crazyhouse", "Fischerandom"}) {
    const Replayed r = replayed(with_tags("[Variant \"" + name + "\"]", "1. e4 *"));
    CHECK(r.replay.state == State::refused);
    CHECK(r.replay.fault->code == Code::variant_unsupported);
    CHECK(r.replay.fault->detail == name);
  }
  // Castling rights of shuffled starts: by rook's file (X-FEN), by KQ with the king elsewhere, and
  // by KQ with the king at home and the rooks elsewhere.
  for (const std::string fen : {"bqnb1rkr/pp3ppp/3ppn2/2p5/5P2/P2P4/NPP1P1PP/BQ1BNRKR w HFhf - 2 9",
                                "rk2r3/8/8/8/8/8/8/RK2R3 w KQkq - 0 1",
                                "nrbqkbrn/pppppppp/8/8/8/8/PPPPPPPP/NRBQKBRN w KQkq - 0 1"}) {
    const Replayed r = replayed(with_tags("[FEN \"" + fen + "\"]", "1. e4 *"));
    CHECK(r.replay.state == State::refused);
    CHECK(r.replay.fault->code == Code::variant_unsupported);
  }
}

TEST_CASE("a result that the last position contradicts is told") {
  const std::string mate = "1. f3 e5 2. g4 Qh4# ";
  CHECK(replayed(mate + "0-1").faults.empty());
  CHECK(replayed(mate + "*").faults.empty());
  for (const std::string result : {"1-0", "1/2-1/2"}) {
    const Replayed r = replayed(mate + result);
    REQUIRE(r.faults.size() == 1);
    CHECK(r.faults[0].code == Code::result_contradicts_board);
  }
  const std::string stalemate = with_tags("[FEN \"7k/8/6Q1/8/8/8/8/K7 w - - 0 1\"]", "1. Qf7 1-0");
  REQUIRE(replayed(stalemate).faults.size() == 1);
  CHECK(replayed(stalemate).faults[0].detail == "1-0 and stalemate");
}

TEST_CASE("a game without moves is playable, and replaying twice gives the same") {
  CHECK(replayed("[White \"A\"]\n\n1-0").replay.state == State::playable);
  Replayed r = replayed("1. e4 (1. d4 d5 (1... Nf6)) e5 *");
  const std::string before = tree_of(r.game);
  base::FaultList ignored;
  CHECK(replay(r.game, ignored).plies == 2);
  CHECK(tree_of(r.game) == before);
  Game none;
  CHECK(replay(none, ignored).state == State::playable);
}

TEST_CASE("moves of people's files are played as what they mean") {
  // Leniencies of rules/san.hpp as they reach replay through the tokenizer.
  const Replayed r = replayed(
      "1. e2-e4 e7e5 2. Ng1f3 Nb8-c6 3. Bb5 a6 4. B:c6 dc6 5. 0-0 f6 6. d4 exd4 7. c3 dxc3 8. Qxd8 "
      "+ "
      "Kxd8 9. Rd1+ Bd7 10. e5 f5 11. e6 c2 12. ed7 c2xd1Q+ *");
  CHECK_FALSE(r.replay.fault);
  CHECK(r.replay.plies == 24);
  const Replayed ep = replayed("1. e4 a6 2. e5 d5 3. exd6 e.p. a5 4. dxc7 a4 5. cxb8(Q) axb3?? *");
  CHECK(ep.replay.plies == 9);
}
