// Puzzles from published positions (fact sheet, section 6; the sources stand there and beside each
// case). A puzzle is checked move by move, not by its words alone.
#include "kairos/puzzle/compose.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/mate.hpp"
#include "kairos/search/settled.hpp"
#include "kairos/study/expectation.hpp"

#include "support/games.hpp"
#include "support/sheets.hpp"

using namespace kairos;
using puzzle::Composition;
using puzzle::Drop;
using puzzle::Puzzle;
using study::Kind;

namespace {

study::Settings with_nodes(std::uint64_t nodes) {
  study::Settings s;
  s.effort = {nodes / 20, nodes / 2, nodes};
  return s;
}

// A study whose game begins at the position with the move.
study::Study study_of(std::string_view fen, std::string_view san) {
  study::Study s;
  s.start = support::position(fen);
  s.moves = {support::move(s.start, san)};
  s.notes.resize(2);
  s.facts.white = "Aronov";
  s.facts.black = "Bellini";
  s.facts.number = 12;
  return s;
}

// A moment that claims nothing but that there may be a question at the first ply.
study::Moment moment_of(const study::Study& s, Kind kind) {
  study::Moment m;
  m.kind = kind;
  m.position = s.start;
  m.played = m.best = s.moves[0];
  m.best_score = search::mate_in_plies(1);
  m.second_score = 0;
  return m;
}

Composition compose(const study::Study& s, const study::Moment& m, std::uint64_t nodes,
                    search::Searcher& searcher) {
  return puzzle::compose(support::sheet_of(s), m, {}, with_nodes(nodes), searcher);
}

Composition compose(std::string_view fen, std::string_view san, std::uint64_t nodes,
                    Kind kind = Kind::only_move) {
  const study::Study s = study_of(fen, san);
  search::Searcher searcher;
  return compose(s, moment_of(s, kind), nodes, searcher);
}

// What must hold of any puzzle.
void check_sound(const Puzzle& p) {
  REQUIRE(p.line.size() % 2 == 1);
  rules::Position at = p.position;
  for (const rules::Move m : p.line) {
    REQUIRE(rules::is_legal(at, m));
    at.play(m);
  }
  CHECK(study::expectation(p.score) - study::expectation(p.second_score) >= 0.25);
  CHECK(p.tries.size() <= 4);
  for (const puzzle::Try& t : p.tries) {
    CHECK(t.move != p.line.front());
    REQUIRE(rules::is_legal(p.position, t.move));
    REQUIRE_FALSE(t.refutation.empty());
    CHECK(rules::is_legal(p.position.after(t.move), t.refutation.front()));
    CHECK(study::expectation(p.score) - study::expectation(t.score) >= 0.25);
  }
  REQUIRE(p.asked % 2 == 1);
  CHECK(static_cast<std::size_t>(p.asked) <= p.line.size());
  CHECK(p.difficulty == puzzle::difficulty_of(p.solve_rates));
  CHECK(p.solve_rates[1] <= 8'500);
  if (p.mate_moves > 0) CHECK(rules::is_checkmate(at));
}

}  // namespace

TEST_CASE("published mates become puzzles with the exact number of moves", "[slow]") {
  struct Case {
    const char* name;
    const char* fen;
    const char* key;
    int moves;
  };
  const Case cases[] = {
      {"Reti-Tartakower, Vienna 1910; Reti, Masters of the Chessboard (from memory)",
       "rnb1kb1r/pp3ppp/2p5/4q3/4n3/3Q4/PPPB1PPP/2KR1BNR w kq - 0 9", "Qd8+", 3},
      {"Anderssen-Dufresne, Berlin 1852, after 20...Nxe7 (from memory)",
       "1r2k1r1/pbppnp1p/1b3P2/8/Q7/B1PB1q2/P4PPP/3R2K1 w - - 0 21", "Qxd7+", 4},
  };
  for (const Case& c : cases) {
    INFO(c.name);
    const Composition made = compose(c.fen, c.key, 600'000);
    INFO("dropped: " << static_cast<int>(made.drop));
    REQUIRE(made.puzzle.has_value());
    const Puzzle& p = *made.puzzle;
    check_sound(p);
    CHECK(rules::to_san(p.position, p.line.front()) == c.key);
    CHECK(p.mate_moves == c.moves);
    CHECK(p.reward == puzzle::Reward::mate);
    CHECK(p.found);
    CHECK(p.game_label == "Aronov - Bellini");
    // No shorter mate exists: the prover is asked again, one move less.
    CHECK_FALSE(search::prove_mate(p.position, c.moves - 1, 5'000'000).has_value());
  }
}

TEST_CASE("what nearly everyone finds is no puzzle, by the model of players", "[slow]") {
  // Mates in two that start with a check: more than 85 of 100 players rated 2000 play them.
  // Schulder-Boden, London 1853; E. Winter, Boden's Mate.
  CHECK(compose("2k1rb1r/ppp3pp/2n2q2/3B1b2/5P2/2P1BQ2/PP1N1P1P/2KR3R b - - 0 14", "Qxc3+", 300'000)
            .drop == Drop::trivial);
  // Legal-Saint Brie; Wikipedia, Legal Trap.
  CHECK(compose("rn1qkbnr/ppp2p1p/3p2p1/4N3/2B1P3/2N5/PPPP1PPP/R1BbK2R w KQkq - 0 6", "Bxf7+",
                300'000)
            .drop == Drop::trivial);
  // Chigorin-Steinitz, Havana 1892.
  CHECK(compose("8/pp2R2p/4Nkb1/3P1p2/1B5p/8/PP1rr2P/5R1K b - - 2 32", "Rxh2+", 300'000).drop ==
        Drop::trivial);
}

TEST_CASE("a refutation still refutes when the solver searches on after it", "[.long]") {
  // Fred Reinfeld, Win at Chess, 222 (shared/data/suites/wac-a.epd): Bf6. The search of the
  // position after 1. bxa3 once gave Bb3 as the answer, after which White still mates.
  const Composition made =
      compose("2r1r2k/1q3ppp/p2Rp3/2p1P3/6QB/p3P3/bP3PPP/3R2K1 w - - 0 1", "Bf6", 4'000'000);
  REQUIRE(made.puzzle.has_value());
  check_sound(*made.puzzle);
  const Puzzle& p = *made.puzzle;
  // The move of that search is what most would play, and the only try with three in a hundred.
  REQUIRE_FALSE(p.tries.empty());
  CHECK(rules::to_san(p.position, p.tries.front().move) == "bxa3");
  for (const puzzle::Try& t : p.tries) {
    INFO(rules::to_san(p.position, t.move));
    const rules::Position next = p.position.after(t.move);
    search::Limits limits;
    limits.nodes = 4'000'000;
    search::Searcher searcher;
    const search::Verdict after = searcher.search(next.after(t.refutation.front()), {}, limits);
    REQUIRE_FALSE(after.lines.empty());
    CHECK(study::expectation(p.score) - study::expectation(after.lines.front().score) >= 0.25);
  }
}

TEST_CASE("positions with two solutions are dropped as cooked") {
  // Rotlewi-Rubinstein, Lodz 1907, finish (N02): Rh3 mates in 4, Rc2+ mates too.
  CHECK(compose("6k1/5ppp/pb2p3/1p2P3/1P2bPnP/P1r5/1B4QP/R4R1K b - - 1 25", "Rh3", 150'000).drop ==
        Drop::cook);
  // Levitsky-Marshall, Breslau 1912 (N01): Black wins with more than the famous move.
  CHECK(compose("5rk1/pp4pp/4p3/2R3Q1/3n4/2q4r/P1P2PPP/5RK1 b - - 1 23", "Qg3", 150'000).drop ==
        Drop::cook);
  // Timman-Short 1990 (M10): Nf7+ mates in 4, Qf7 in 6.
  CHECK(compose("4r2k/2pRP1pp/2p5/p4pN1/2Q3n1/q5P1/P3PP1P/6K1 w - - 0 27", "Nf7+", 400'000).drop ==
        Drop::cook);
}

TEST_CASE("a check that most find and that wins a rook behind the king is no puzzle") {
  // Topalov-Shirov, Wijk aan Zee 1999 (shared/data/pgn/events/WijkaanZee1999.pgn): 35... Rh1+.
  CHECK(compose("6R1/1b5p/p2kp3/1p1p4/7r/P1PN2n1/1P4P1/3B1RK1 b - - 0 35", "Rh1+", 100'000).drop ==
        Drop::trivial);
}

TEST_CASE("the only legal move and the plain recapture are no puzzles") {
  // NN-Greco 1620 (C03): one legal move.
  CHECK(compose("r1b2rk1/pppp1ppp/8/2b1P3/2B3n1/5N2/PP3qPP/RNBQR1K1 w - - 0 12", "Kh1", 20'000)
            .drop == Drop::trivial);
  // Made for the test: Black has taken the knight on d4 with his queen; the pawn takes back.
  study::Study s = study_of("3qk3/8/8/8/3N4/2P5/5PPP/6K1 b - - 0 1", "Qxd4");
  s.moves.push_back(support::move(study::position_after(s, 1), "cxd4"));
  s.notes.resize(3);
  study::Moment m = moment_of(s, Kind::only_move);
  m.ply = 1;
  m.position = study::position_after(s, 1);
  m.played = m.best = s.moves[1];
  search::Searcher searcher;
  CHECK(compose(s, m, 20'000, searcher).drop == Drop::trivial);
}

// Positions of open games (shared/data/pgn: Biel 2008, Sochi 2008, Gibraltar 2019).
TEST_CASE("of two legal moves nothing is asked") {
  // Santos Ruiz-Karim: the king leaves the check to e1 or c1.
  CHECK(compose("1R6/4pBbk/3p2pp/3P3P/5PP1/2n1B3/r7/3K4 w - - 1 38", "Ke1", 20'000).drop ==
        Drop::trivial);
}

TEST_CASE("a gain that a quiet key only promises is shown until it is on the board", "[slow]") {
  // Gleizerov-Mas: 34. Re8 pins; after 34... Qxe8 35. Nxf6+ forks king and queen.
  const Composition c =
      compose("r1b2qk1/p6p/1p1b1p2/2pP3r/6N1/P6P/1PQ2PB1/3RR1K1 w - - 0 34", "Re8", 400'000);
  REQUIRE(c.puzzle);
  check_sound(*c.puzzle);
  REQUIRE(c.puzzle->reward == puzzle::Reward::material);
  rules::Position at = c.puzzle->position;
  const search::Score before = search::nominal_balance(at, rules::white);
  for (const rules::Move m : c.puzzle->line) at.play(m);
  CHECK(search::nominal_balance(at, rules::white) >= before + 100);
}

TEST_CASE("a perpetual check is shown until it repeats", "[slow]") {
  // Grischuk-Svidler: 21... Qa5+ 22. Kd3 Qd5+.
  const Composition c =
      compose("7r/1bknQ1pp/3N1P2/3q2B1/8/2K5/1PP3PP/r2R3R b - - 4 21", "Qa5+", 400'000);
  REQUIRE(c.puzzle);
  check_sound(*c.puzzle);
  REQUIRE(c.puzzle->reward == puzzle::Reward::save);
  CHECK(std::ranges::count(c.puzzle->motifs, study::Motif::perpetual_check) == 1);
}

TEST_CASE("a second way to draw is found where it lies deep", "[slow]") {
  // Bellin-Pogonina: beside 48... exf4 48... c3 draws too, by perpetual check.
  CHECK(compose("7r/P2q2k1/1p4p1/1P1pp1P1/1QpPpP2/R3P3/5K2/8 b - - 0 48", "exf4", 400'000).drop !=
        Drop::none);
}

TEST_CASE("a quiet win becomes a puzzle whose reward is material") {
  // Lazard's trap; Tartakower, Schachmethodik (1928), by E. Winter, Chess Explorations 99.
  const Composition made = compose("rnbqkb1r/pppp1ppp/8/4P3/6n1/7P/PPPNPPP1/R1BQKBNR b KQkq - 0 4",
                                   "Ne3", 200'000, Kind::quiet_win);
  REQUIRE(made.puzzle.has_value());
  check_sound(*made.puzzle);
  CHECK(made.puzzle->reward == puzzle::Reward::material);
  CHECK(made.puzzle->mate_moves == 0);
  REQUIRE_FALSE(made.puzzle->tries.empty());  // by share: most take what hangs, Nxe5
  CHECK(puzzle::id_of(*made.puzzle) == "g12-m4b");
}

TEST_CASE("a drawing study becomes a puzzle whose reward is the save") {
  // Reti 1921, Kagans Neueste Schachnachrichten, after 1...h4: the only move (table-checked, O02).
  const Composition made = compose("8/6K1/k1P5/8/7p/8/8/8 w - - 0 2", "Kf6", 150'000);
  REQUIRE(made.puzzle.has_value());
  check_sound(*made.puzzle);
  CHECK(made.puzzle->reward == puzzle::Reward::save);
}

TEST_CASE("an error whose better move is not unique asks for its punishment") {
  // Reti-Tartakower, Vienna 1910: after 8...Nxe4 White mates in 3.
  study::Study s =
      study_of("rnb1kb1r/pp3ppp/2p2n2/4q3/4N3/3Q4/PPPB1PPP/2KR1BNR b kq - 1 8", "Nxe4");
  s.moves.push_back(support::move(study::position_after(s, 1), "Qd8+"));
  s.notes.resize(3);
  study::Moment m = moment_of(s, Kind::swing);
  m.best_score = 250;
  m.second_score = 250;
  m.played_score = -search::mate_in_plies(6);
  search::Searcher searcher;
  const Composition made = compose(s, m, 150'000, searcher);
  REQUIRE(made.puzzle.has_value());
  check_sound(*made.puzzle);
  CHECK(made.puzzle->position.side_to_move() == rules::white);
  CHECK(made.puzzle->last == s.moves[0]);
  CHECK_FALSE(made.puzzle->avoided);
  CHECK(made.puzzle->ply == 1);
  CHECK(made.puzzle->mate_moves == 3);
  CHECK(made.puzzle->found);
}

TEST_CASE("a puzzle depends on its arguments alone") {
  const study::Study s =
      study_of("rnb1kb1r/pp3ppp/2p5/4q3/4n3/3Q4/PPPB1PPP/2KR1BNR w kq - 0 9", "Qd8+");
  const study::Moment m = moment_of(s, Kind::only_move);
  search::Searcher searcher;
  const Composition first = compose(s, m, 60'000, searcher);
  searcher.search(rules::Position::start(), {}, {.nodes = 20'000});
  const Composition second = compose(s, m, 60'000, searcher);
  REQUIRE(first.puzzle.has_value());
  REQUIRE(second.puzzle.has_value());
  CHECK(*first.puzzle == *second.puzzle);
}
