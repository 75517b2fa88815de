// kairos weigh from outside: published errors and their refutations, and what goes wrong.
//
// The positions stand in the fact sheet, section 6, with their sources; [M] marks what is from
// memory there. `--nodes` instead of seconds, so that the answer is the same everywhere.
#include <catch2/catch.hpp>

#include "kairos/base/json.hpp"

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

Outcome weigh(std::vector<std::string> arguments, const std::string& folder = ".") {
  arguments.insert(arguments.begin(), "weigh");
  return run_program({std::move(arguments), folder, "", {}});
}

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

// A data table.
TEST_CASE("weigh refutes published errors and approves the better moves", "[slow]") {
  struct Case {
    const char* name;
    const char* fen;
    const char* error;
    const char* verdict;  // of the error, in part
    const char* refutation;
    const char* better;
  };
  const Case cases[] = {
      {"Legal-Saint Brie, Paris c. 1750; Wikipedia, Legal Trap",
       "rn1qkbnr/ppp2p1p/3p2p1/4N3/2B1P1b1/2N5/PPPP1PPP/R1BQK2R b KQkq - 0 5", "Bxd1", "mates in 2",
       "Bxf7+", "Be6"},
      {"Reti-Tartakower, Vienna 1910 [M]",
       "rnb1kb1r/pp3ppp/2p2n2/4q3/4N3/3Q4/PPPB1PPP/2KR1BNR b kq - 1 8", "Nxe4", "mates in 3",
       "Qd8+", "Be7"},
      {"Chigorin-Steinitz, Havana 1892", "8/pp2R2p/3BNkb1/3P1p2/7p/8/PP1rr2P/5R1K w - - 1 32",
       "Bb4", "mates in 2", "Rxh2+", "Rxb7"},
      {"NN-Greco, c. 1620", "r1b2rk1/pppp1ppp/8/2b1P3/2BN2nq/8/PP3PPP/RNBQR1K1 w - - 1 11", "Nf3",
       "mates in 3", "Qxf2+", "Be3"},
      {"Anderssen-Kieseritzky, London 1851",
       "rnb1k1nr/p2p1ppp/3B4/1p1NPN1P/6P1/3P1Q2/P1P1K3/q5b1 b kq - 1 20", "Na6", "mates in 3",
       "Nxg7+", "Ba6"},
      {"Italian, 3...Nd4, opening theory [M]",
       "r1b1kbnr/pppp1ppp/8/4N1q1/2BnP3/8/PPPP1PPP/RNBQK2R w KQkq - 1 5", "Nxf7", "loses", "Qxg2",
       "Bxf7+"},
      {"Queen's Gambit Declined, 6.Nxd5, opening theory [M]",
       "r1bqkb1r/pppn1ppp/5n2/3p2B1/3P4/2N5/PP2PPPP/R2QKBNR w KQkq - 0 6", "Nxd5",
       "loses a knight for a pawn", "Nxd5", "e3"},
      {"Combe-Hasenfuss, Folkestone 1933 [M]",
       "rnbqkbnr/pp1p1ppp/8/4p3/2Pp4/5N2/PP2PPPP/RNBQKB1R w KQkq - 0 4", "Nxe5", "loses a knight",
       "Qa5+", "e3"},
      {"Lazard's trap; Tartakower, Schachmethodik (1928), by E. Winter",
       "rnbqkb1r/pppp1ppp/8/4P3/6n1/8/PPPNPPPP/R1BQKBNR w KQkq - 1 4", "h3", "loses the queen",
       "Ne3", "Ngf3"},
      {"Scholar's mate, opening theory [M]",
       "r1bqkbnr/pppp1ppp/2n5/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR b KQkq - 3 3", "Nf6", "is mate",
       "Qxf7#", "g6"},
      {"von Popiel-Marco, Monte Carlo 1902; I. Becker",
       "7k/1b1r2p1/p6p/1p2qN2/3bP3/3Q4/P5PP/1B3R1K w - - 0 36", "Rd1", "loses the queen", "Bg1",
       "Nh4"},
      {"Bernstein-Capablanca, Moscow 1914; D. Mackenzie 2019",
       "3r2k1/p4ppp/1q6/8/8/2R1P3/P3QPPP/6K1 b - - 0 29", "Qb1+", "lets the win slip", "Qf1",
       "Qb2"},
      {"Schulder-Boden, London 1853, by E. Winter: lost already, but mated",
       "2k1rb1r/ppp3pp/2n2q2/3p1b2/2B2P2/2P1BQ2/PP1N1P1P/2KR3R w - - 0 14", "Bxd5", "mates in 2",
       "Qxc3+", "Rde1"},
  };
  for (const Case& c : cases) {
    INFO(c.name);
    const Outcome run = weigh({"--fen", c.fen, "--nodes", "300000", "--json", c.error, c.better});
    INFO(run.out + run.err);
    REQUIRE(run.exit_code == 0);
    const auto json = base::parse_json(run.out);
    REQUIRE(json);
    const base::Json::Array& moves = *json->find("moves")->elements();
    REQUIRE(moves.size() == 2);
    CHECK(moves[0].find("good")->boolean() == false);
    CHECK(has(*moves[0].find("verdict")->text(), c.verdict));
    const base::Json::Array& line = *moves[0].find("line")->elements();
    REQUIRE(line.size() > 1);
    CHECK(*line[1].text() == c.refutation);
    CHECK(moves[1].find("good")->boolean() == true);
  }
}

TEST_CASE("weigh says the same with any number of threads", "[slow]") {
  const std::vector<std::string> arguments = {
      "--fen", "3r2k1/p4ppp/1q6/8/8/2R1P3/P3QPPP/6K1 b - - 0 29", "--nodes", "50000", "--all"};
  std::vector<std::string> one = arguments, four = arguments;
  one.insert(one.end(), {"--threads", "1"});
  four.insert(four.end(), {"--threads", "4"});
  const Outcome first = weigh(one);
  CHECK(first.exit_code == 0);
  CHECK(first.out == weigh(four).out);
  // The key of the game first of all legal moves.
  CHECK(first.out.rfind("29... Qb2 wins the rook on c3", 0) == 0);
}

TEST_CASE("weigh ends when there is nothing more to search") {
  // Saavedra 1895, before the last move (fact sheet, O07): mate in 6, found to the end at once.
  const Outcome run =
      weigh({"--fen", "2R5/8/8/8/r7/8/2K5/k7 w - - 1 7", "Kb3", "--seconds", "600"});
  CHECK(run.exit_code == 0);
  CHECK(has(run.out, "7. Kb3 mates in 6"));
}

TEST_CASE("weigh reads moves as people write them, each for itself") {
  const Outcome run = weigh({"--fen", "3r2k1/p4ppp/1q6/8/8/2R1P3/P3QPPP/6K1 b - - 0 29", "--nodes",
                             "2000", "queen", "b2", "rook", "to", "d1", "Rd1", "rook", "e8"});
  CHECK(run.exit_code == 0);
  CHECK(has(run.out, "29... Qb2 "));
  CHECK(has(run.out, "29... Rd1+ "));
  CHECK(has(run.out, "29... Re8 "));
  CHECK(run.out.find("29... Rd1+ loses") == run.out.rfind("29... Rd1+ loses"));
}

TEST_CASE("weigh takes a position from a game and from an EPD file") {
  TemporaryFolder folder;
  folder.write("game.pgn",
               "[White \"Amber\"]\n[Black \"Birch\"]\n[Result \"*\"]\n\n1. f3 e5 2. g4 *\n\n"
               "[White \"Birch\"]\n[Black \"Amber\"]\n[Result \"*\"]\n\n1. e4 e5 2. Qh5 Nc6 "
               "3. Bc4 *\n\n");
  Outcome run =
      weigh({"--game", "game.pgn", "--ply", "3", "--nodes", "2000", "Qh4"}, folder.path());
  CHECK(has(run.out, "2... Qh4# is mate"));
  run = weigh({"--game", "game.pgn", "--number", "2", "--ply", "5", "--nodes", "2000", "Nf6"},
              folder.path());
  CHECK(has(run.out, "3... Nf6 loses: 4. Qxf7# is mate"));
  run = weigh({"--game", "game.pgn", "--ply", "4", "--nodes", "2000", "Nf6"}, folder.path());
  CHECK(run.exit_code == 2);
  CHECK(has(run.err, "--ply is 0 (before the first move) to 3 (after the last)"));
  run = weigh({"--game", "game.pgn", "--number", "3", "--ply", "0", "e4"}, folder.path());
  CHECK(run.exit_code == 2);
  CHECK(has(run.err, "there are only 2 games"));

  folder.write("puzzles.epd",
               "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; id \"corner\";\n"
               "7k/5Q2/6K1/8/8/8/8/8 w - - bm Qg7#; id \"middle\";\n");
  run = weigh({"--epd", "puzzles.epd", "--id", "corner", "--nodes", "2000", "rook d8"},
              folder.path());
  CHECK(has(run.out, "1. Rd8# is mate"));
  run = weigh({"--epd", "puzzles.epd", "--id", "midle", "Qg7"}, folder.path());
  CHECK(run.exit_code == 2);
  CHECK(has(run.err, "the nearest is \"middle\""));
}

TEST_CASE("weigh tells what is wrong with what it is asked") {
  const std::string start = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";
  Outcome run = weigh({"--fen", start, "--nodes", "2000", "e5", "Bg5", "e4"});
  CHECK(run.exit_code == 0);
  CHECK(has(run.out, "e5: illegal move: no pawn can step to e5 (White is to move)"));
  CHECK(has(run.out, "Bg5: illegal move: the way from c1 to g5 is blocked"));
  CHECK(has(run.out, "1. e4 holds"));

  // All faults of a FEN at once.
  run = weigh({"--fen", "rnbqkbnr/ppppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR x KQkq e9 0 1", "e4"});
  CHECK(run.exit_code == 2);
  CHECK(has(run.err, "rank 7 has 9 squares"));
  CHECK(has(run.err, "side to move"));
  CHECK(has(run.err, "en passant"));
  for (const auto& [fen, words] :
       {std::pair("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", "the game is over: stalemate"),
        std::pair("6kR/5ppp/8/8/8/8/8/6K1 b - - 0 1", ""),
        std::pair("8/8/8/4k3/8/4K3/8/8 w - - 0 1", "neither side has men to mate with")}) {
    run = weigh({"--fen", fen, "Kd1"});
    CHECK(run.exit_code == (*words == '\0' ? 0 : 2));
    CHECK(has(run.err, words));
  }
  run = weigh({"--fen", start, "hello"});
  CHECK(run.exit_code == 2);
  CHECK(has(run.err, "no move to weigh in these words"));
  CHECK(has(weigh({"--fen", start}).err, "name the moves to weigh, or ask for --all"));
  CHECK(weigh({"e4"}).exit_code == 2);
  CHECK(weigh({"--fen", start, "--all", "e4"}).exit_code == 2);
  CHECK(weigh({"--epd", "nowhere.epd", "--id", "x", "e4"}).exit_code == 3);
}

TEST_CASE(
    "weigh --level gives each move's share among players of that rating, the same every time") {
  // After 1.e4 e5: nobody is much in doubt about what can be taken.
  const std::string fen = "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2";
  const auto ask = [&](const std::string& level, const std::string& threads) {
    return weigh({"--fen", fen, "--all", "--nodes", "1000", "--level", level, "--threads", threads,
                  "--json"});
  };
  const Outcome outcome = ask("1900", "1");
  REQUIRE(outcome.exit_code == 0);
  CHECK(ask("1900", "4").out == outcome.out);
  const base::Json said = base::parse_json(outcome.out).value();
  CHECK(*said.find("level")->integer() == 1900);
  CHECK_FALSE(*said.find("extrapolated")->boolean());
  double sum = 0;
  for (const base::Json& move : *said.find("moves")->elements()) sum += *move.find("share")->real();
  CHECK(sum == Approx(1));
  const base::Json low = base::parse_json(ask("1500", "1").out).value();
  CHECK(*low.find("extrapolated")->boolean());
  const Outcome without = weigh({"--fen", fen, "--all", "--nodes", "1000", "--json"});
  CHECK_FALSE(has(without.out, "share"));
  CHECK(weigh({"--fen", fen, "--all", "--level", "1900"}).exit_code == 2);
}
