// Reasons read from a move, its line and the move before: positions where each holds, and near
// misses where it does not. Made for the test unless a source is named; the definitions stand at
// the tops of means.cpp, threats.cpp and line_ends.cpp.
#include <catch2/catch.hpp>

#include "line_ends.hpp"
#include "line_gain.hpp"
#include "means.hpp"
#include "support/games.hpp"
#include "threats.hpp"

using namespace kairos;
using rules::Square;
using study::Means;
using study::MoveFacts;
using study::Reason;
using study::ReasonKind;

namespace {

// In `fen`, `last` is played (it may be empty), and `line` follows.
MoveFacts facts_of(const char* fen, const char* last, const char* line, search::Score score) {
  MoveFacts facts;
  facts.before = facts.position = support::position(fen);
  if (*last != '\0') {
    facts.last = support::move(facts.before, last);
    facts.position = facts.before.after(facts.last);
  }
  facts.line = support::line(facts.position, line);
  facts.score = score;
  return facts;
}

std::optional<Reason> gain(const MoveFacts& facts) {
  std::uint64_t nodes = 0;
  return study::gain_in_line(facts, facts.position, nodes);
}

}  // namespace

TEST_CASE("men are won in the line where they stay won and the score bears it out") {
  constexpr const char* hanging = "4k3/8/8/3n4/8/8/8/3RK3 w - - 0 1";
  const auto knight = gain(facts_of(hanging, "", "Rxd5", 500));
  REQUIRE(knight);
  CHECK(knight->kind == ReasonKind::soon_wins);
  CHECK(knight->men.won[rules::knight] == 1);
  CHECK(knight->squares == std::vector<Square>{rules::d5});
  CHECK(knight->pieces == std::vector<rules::PieceType>{rules::knight});
  CHECK(knight->target == rules::no_square);  // the move takes it
  // A line that ends drawn wins nothing, nor one that the searcher does not believe in.
  CHECK_FALSE(gain(facts_of(hanging, "", "Rxd5", 0)));
  CHECK_FALSE(gain(facts_of(hanging, "", "Rxd5", -300)));
  // The knight is guarded.
  CHECK_FALSE(gain(facts_of("4k3/8/2p5/3n4/8/8/8/3RK3 w - - 0 1", "", "Rxd5 cxd5", 200)));
  // Taken a move later: where it stands now.
  const auto rook = gain(facts_of("r3k3/8/8/8/8/8/8/4K2R w - - 0 1", "", "Rh8+ Kd7 Rxa8", 900));
  REQUIRE(rook);
  CHECK(rook->target == rules::a8);
}

TEST_CASE("a pawn that falls late is told only where that is asked for") {
  // Psakhis-Mestel, Las Palmas 1982 (shared/data/pgn/events/Interzonal1982a.pgn), after 38... Nc2.
  constexpr const char* fen = "r5k1/5p2/3p1n1p/1p1P2pP/2r1P1P1/n2R1PK1/NR6/3N4 b - - 3 38";
  const auto facts = facts_of(fen, "Nc2", "Nac3 Rd4 Rxd4 Nxd4 Rb4 Nc2 Rxb5 Nd7 Rb7 Ne5", 177);
  CHECK_FALSE(gain(facts));
  std::uint64_t nodes = 0;
  const auto late = study::gain_in_line(facts, facts.before, nodes, study::Pawns::late);
  REQUIRE(late);
  CHECK(late->target == rules::b5);
  CHECK(late->gain == 100);
  CHECK(late->line.size() == 7);
}

TEST_CASE("what goes nine plies after a gain goes for other reasons, if the score bears it out") {
  // After Szabo-Petrosian (open game file), move 17: e4 falls to 17... Bxh3; much later c4 and d6.
  constexpr const char* fen =
      "r4rk1/1ppb1pb1/3p1qp1/2nPp2p/p1P1P2P/P1N3P1/1P3PBK/1R1QNR2 w - - 2 17";
  constexpr const char* line =
      "Bxh3 Kxh3 Nxe4 Nxe4 Qf5+ Kh2 Qxe4 Rc1 Bh6 Rc3 f5 Ng2 f4 c5 Rf7 Re1 fxg3+ fxg3 Qd4 Qc2 Kh7 "
      "Rd1 Qg4 Re1 Raf8 cxd6 cxd6 Re4 Qf5 Qxa4";
  const auto pawn = gain(facts_of(fen, "Bh3", line, 193));
  REQUIRE(pawn);
  CHECK(pawn->target == rules::e4);
  CHECK_FALSE(gain(facts_of(fen, "Bh3", line, 40)));
}

TEST_CASE("a gain is named where it is quiet, not where it is about to be taken back") {
  // Pawns are traded by the way, and a bishop falls (after Yates-Alekhine, shared/data, move 16).
  constexpr const char* fen = "k7/8/6p1/5p1b/4P1P1/8/8/6K1 b - - 0 1";
  const auto bishop = gain(facts_of(fen, "Kb7", "exf5 gxf5 gxh5 Kc6", 400));
  REQUIRE(bishop);
  CHECK(bishop->men.won[rules::bishop] == 1);
  CHECK(bishop->men.won[rules::pawn] == 0);
  CHECK(bishop->target == rules::h5);
  // What is taken next is taken back where it was taken: the first gain stands.
  const auto knight =
      gain(facts_of("4k3/8/4p3/3n4/8/4N3/8/3RK3 w - - 0 1", "", "Nxd5 exd5 Rxd5", 500));
  REQUIRE(knight);
  CHECK(knight->men.won[rules::knight] == 0);
  CHECK(knight->men.won[rules::pawn] == 1);
}

TEST_CASE("of knights and bishops the one really taken is named") {
  // White takes a bishop; a knight and a bishop of White are gone for two of Black's.
  const rules::Position from = support::position("4k3/8/8/8/8/8/1b4n1/1R4K1 w - - 0 1");
  Reason reason;
  reason.move = support::move(from, "Rxb2");
  reason.line = {reason.move};
  reason.men.won[rules::knight] = 1;
  study::name_what_is_taken(reason, from);
  CHECK(reason.men.won[rules::bishop] == 1);
  CHECK(reason.men.won[rules::knight] == 0);
}

namespace {

struct HowCase {
  const char* fen;
  const char* last;
  const char* line;
  std::optional<Means> means;
  std::vector<Square> squares;
};

const HowCase how_cases[] = {
    {"4k3/8/5n2/3r4/8/8/3R4/4K3 b - - 0 1",
     "Ng4",
     "Rxd5",
     Means::guard_gone,
     {rules::d5, rules::g4}},
    {"4k3/8/5n2/3r4/8/8/3R4/4K3 b - - 0 1", "Ke7", "Rxd5 Nxd5", Means::trade, {rules::d5}},
    {"4k3/8/8/3r4/8/8/3R4/4K3 b - - 0 1", "Kf7", "Rxd5", std::nullopt, {}},
    {"4k3/8/8/r2r4/8/8/3R4/4K3 b - - 0 1", "Rac5", "Rxd5", std::nullopt, {}},
    {"4k3/1p6/8/q2r4/8/8/3R4/6K1 b - - 0 1",
     "b5",
     "Rxd5",
     Means::guard_shut,
     {rules::d5, rules::a5}},
    {"4k3/8/8/3r4/8/3n4/8/3R3K b - - 0 1",
     "Ne5",
     "Rxd5",
     Means::line_opened,
     {rules::d1, rules::d3, rules::d5}},
    {"3r2k1/5ppp/8/8/8/8/8/R6K b - - 0 1",
     "Rd2",
     "Ra8+ Rd8 Rxd8#",
     Means::square_unguarded,
     {rules::a8, rules::d2}},
    {"3r2k1/5ppp/8/8/8/8/8/R6K b - - 0 1", "Rb8", "Ra2 h6 Rb2", std::nullopt, {}},
    {"q3k3/8/8/8/8/8/8/4K2R w - - 0 1", "", "Rh8+ Kd7 Rxa8", Means::skewer, {rules::e8, rules::a8}},
    {"r3k3/8/8/3N4/8/8/5PPP/6K1 w q - 0 1",
     "",
     "Nc7+ Kd7 Nxa8",
     Means::fork,
     {rules::a8, rules::e8}},
    {"4k3/8/2n5/8/8/8/8/4KB2 w - - 0 1", "", "Bb5 Kf7 Bxc6", Means::pin, {rules::c6, rules::e8}},
    // The rook attacks one man and threatens mate: no fork of two men, which the ledger would
    // refuse (Adams - Kasimdzhanov, Tripoli 2004, seventh game of the final, after 36... gxf5).
    {"4n1k1/3rpp1p/6pB/2R2P2/8/8/1P3P1P/6K1 b - - 2 36",
     "gxf5",
     "Rc8 f6 Rxe8+",
     Means::pin,
     {rules::e8, rules::g8}},
    {"3q2k1/6pp/8/3p4/8/8/1P1Q4/3R2K1 w - - 0 1", "", "Qxd5+ Qxd5 Rxd5", std::nullopt, {}},
    {"3q2k1/6pp/8/8/3p4/8/8/3Q1RK1 b - - 0 1", "d3", "Qxd3 Qxd3", std::nullopt, {}},
    {"r5k1/5p1p/8/8/8/8/5PPP/R5K1 w - - 0 1", "", "Rxa8+ Kg7 g4", std::nullopt, {}},
    {"r2n2k1/5p1p/8/8/8/8/R4PPP/R5K1 w - - 0 1",
     "",
     "Rxa8 h6 Rxd8+",
     Means::guard_taken,
     {rules::a8}},
    // As in motifs_test.cpp.
    {"4k3/8/8/2b5/3N4/4P3/8/3QK3 b - - 0 1", "Bxd4", "Qa4+ Kd8 Qxd4+", Means::in_between, {}},
    {"2r3k1/5ppp/8/8/8/2q5/3Q1PPP/4R1K1 w - - 0 1",
     "",
     "Re8+ Rxe8 Qxc3",
     Means::guard_drawn_off,
     {rules::c8}},
    {"7k/1b1r2p1/p6p/1p2qN2/3bP3/3Q4/P5PP/1B1R3K b - - 1 36",
     "",
     "Bg1 Kxg1 Rxd3",
     Means::discovered,
     {rules::d7, rules::d3}},
    {"rnbqkb1r/pppp1ppp/8/4P3/6n1/7P/PPPNPPP1/R1BQKBNR b KQkq - 0 4",
     "",
     "Ne3 Ngf3 Nxd1",
     Means::trapped,
     {rules::d1}},
};

}  // namespace

TEST_CASE("how a gain comes about is told by what the move before gave up, or by the move") {
  for (const HowCase& c : how_cases) {
    INFO(c.fen << " " << c.last << " " << c.line);
    const MoveFacts facts = facts_of(c.fen, c.last, c.line, 500);
    Reason reason;
    reason.move = facts.move();
    reason.line = facts.line;
    for (rules::Position p = facts.position; const rules::Move m : facts.line) {
      if (p.side_to_move() == facts.side() && p.is_capture(m)) {
        ++reason.men.won[rules::type_of(p.piece_on(m.to()))];
      }
      p.play(m);
    }
    study::tell_means(reason, facts);
    CHECK(reason.means == c.means);
    CHECK(reason.means_squares == c.squares);
    CHECK(reason.means_squares.size() == reason.means_pieces.size());
  }
}

TEST_CASE("a threat is what would be done if the other side passed, and could not be done before") {
  const auto threat = [](const char* fen, const char* line) {
    std::uint64_t nodes = 0;
    return study::threat_of(facts_of(fen, "", line, 100), nodes);
  };
  const auto mate = threat("6k1/5ppp/8/8/8/8/1K6/7R w - - 0 1", "Ra1");
  REQUIRE(mate);
  CHECK(mate->kind == ReasonKind::threatens);
  CHECK(mate->mate_moves == 1);
  CHECK(mate->squares == std::vector<Square>{rules::a8});
  CHECK_FALSE(threat("5rk1/5ppp/8/8/8/8/1K6/7R w - - 0 1", "Ra1"));  // the rook guards a8
  const auto knight = threat("4k3/7p/2n5/8/8/8/4B3/4K3 w - - 0 1", "Bb5 Kd7");
  REQUIRE(knight);
  CHECK(knight->squares == std::vector<Square>{rules::c6});
  CHECK(knight->pieces == std::vector<rules::PieceType>{rules::knight});
  // Nothing is said of a threat that the reply does not mind and the line does not carry out.
  CHECK_FALSE(threat("4k3/7p/2n5/8/8/8/4B3/4K3 w - - 0 1", "Bb5 h5 Kf2"));
  CHECK_FALSE(threat("4k3/1p6/2n5/8/8/8/4B3/4K3 w - - 0 1", "Bb5 Kd7"));  // guarded
  CHECK_FALSE(threat("4k3/8/2n5/8/B7/8/8/r3K3 w - - 0 1", "Kf2 Kd7"));    // and before the check
  CHECK_FALSE(threat("4k3/8/2n5/8/B7/8/8/4K3 w - - 0 1", "Kf2 Kd7"));     // it was attacked before
  // To take back, or to be taken back, threatens nothing.
  CHECK_FALSE(threat("3qk3/8/8/3p4/8/8/8/3QK3 w - - 0 1", "Qxd5 Qxd5"));
}

TEST_CASE(
    "a move prevents what would happen if its side passed and what another move lets happen") {
  const auto met = [](const char* fen, const char* line, const char* other) {
    std::uint64_t nodes = 0;
    const MoveFacts facts = facts_of(fen, "", line, 0);
    return study::prevented_by(facts, support::move(facts.position, other), nodes);
  };
  constexpr const char* back_rank = "6k1/5ppp/8/4P3/8/8/r4PPP/6K1 w - - 0 1";
  const auto mate = met(back_rank, "h3", "e6");
  REQUIRE(mate);
  CHECK(mate->kind == ReasonKind::prevents);
  CHECK(mate->mate_moves == 1);
  CHECK(mate->squares == std::vector<Square>{rules::a1});
  CHECK_FALSE(met(back_rank, "e6", "h3"));  // it does not
  CHECK_FALSE(met(back_rank, "h3", "g3"));  // the other does as well
  constexpr const char* attacked = "4k3/8/8/8/8/2p5/1N5P/4K3 w - - 0 1";
  const auto knight = met(attacked, "Nd3", "h3");
  REQUIRE(knight);
  CHECK(knight->squares == std::vector<Square>{rules::b2});
  CHECK_FALSE(met(attacked, "h4", "h3"));
}

TEST_CASE("a draw by force is proved, and needs the score of a draw") {
  const auto draw = [](const char* fen, const char* line, search::Score score) {
    std::uint64_t nodes = 0;
    return study::draw_by_force(facts_of(fen, "", line, score), nodes);
  };
  // Maroczy-Marshall, New York 1924, had White played 44. h3.
  constexpr const char* checks = "5rk1/p5p1/1p5p/3PQ3/2P5/1P3qPP/P3R3/6K1 b - - 0 44";
  constexpr const char* line = "Qf1+ Kh2 Rf2+ Rxf2 Qxf2+ Kh1 Qf1+";
  const auto perpetual = draw(checks, line, 0);
  REQUIRE(perpetual);
  CHECK(perpetual->kind == ReasonKind::draws);
  CHECK(perpetual->motif == study::Motif::perpetual_check);
  CHECK_FALSE(draw(checks, line, 300));
  // One check and no more: the king goes to h2 for good.
  CHECK_FALSE(draw("6k1/6p1/8/q7/8/7P/5PP1/6K1 b - - 0 1", "Qe1+ Kh2", 0));
  // Evans-Reshevsky, US Championship 1963/64 (C02).
  const auto stalemate =
      draw("2Q5/5Rpk/8/1p2p2p/1P2Pn1P/5Pq1/4r3/7K w - - 0 49", "Qg8+ Kxg8 Rxg7+ Kxg7", 0);
  REQUIRE(stalemate);
  CHECK(stalemate->motif == study::Motif::stalemate);
}

TEST_CASE("a line that ends in checks that come back leads to perpetual check") {
  // Alekhine-Maroczy, New York 1924, had Black answered 31. Qxb7 so.
  constexpr const char* fen = "2Q5/1p3pkp/6p1/3p4/8/P3PP1P/1P3KP1/3q4 w - - 5 31";
  constexpr const char* line = "d4 exd4 Qd2+ Kg3 Qg5+ Kh2 Qf4+ Kg1 Qc1+ Kf2 Qd2+";
  std::uint64_t nodes = 0;
  const auto draw = study::draw_by_force(facts_of(fen, "Qxb7", line, 0), nodes);
  REQUIRE(draw);
  CHECK(draw->motif == study::Motif::perpetual_check);
  CHECK(draw->squares == std::vector<Square>{rules::f2});
  CHECK_FALSE(study::draw_by_force(facts_of(fen, "Qxb7", line, 40), nodes));
  CHECK_FALSE(study::draw_by_force(
      facts_of(fen, "Qxb7", "d4 exd4 Qd2+ Kg3 Qg5+ Kh2 Qf4+ Kg1 Qc1+", 0), nodes));
}

TEST_CASE("a line that comes back to where it was draws") {
  // Macieja-Sulskis, move 29 (shared/data).
  constexpr const char* fen = "6k1/5pp1/p1r5/1P6/P2B3P/4P1p1/2r2n2/R4RK1 w - - 1 29";
  std::uint64_t nodes = 0;
  const auto again = study::draw_by_force(facts_of(fen, "", "Kg2 Ne4+ Kg1 Nf2 Kg2", 0), nodes);
  REQUIRE(again);
  CHECK_FALSE(again->motif);
  CHECK_FALSE(study::draw_by_force(facts_of(fen, "", "Kg2 Ne4+ Kg1 Rf2 Kh1", 0), nodes));
  CHECK_FALSE(study::draw_by_force(facts_of(fen, "", "Kg2 Ne4+ Kg1 Nf2 Kg2", 80), nodes));
}

TEST_CASE("a king is opened by captures that take the pawns before it away") {
  // Chigorin-Steinitz, Havana 1892, after 12... Ne7.
  constexpr const char* fen = "r2q1rk1/pppb1ppp/2np1n2/bB1P4/4P3/N4N2/PB3PPP/R2Q1RK1 b - - 0 12";
  const auto opened = study::opened_king(facts_of(fen, "Ne7", "Bxf6 gxf6 Bxd7 Qxd7 Nc4", 87));
  REQUIRE(opened);
  CHECK(opened->squares == std::vector<Square>{rules::g8, rules::g7});
  CHECK_FALSE(study::opened_king(facts_of(fen, "Ne7", "Bxf6 Bxb5 Nxb5", 87)));
  CHECK_FALSE(study::opened_king(facts_of(fen, "Ne7", "Bxf6 gxf6 Bxd7 Qxd7 Nc4", 0)));
}

TEST_CASE("an attack on the king is counted: its men, or checks that drive the king") {
  // Chigorin-Steinitz, Havana 1892, move 20.
  constexpr const char* fen = "r6r/pp1qnkpp/1bp5/3pPn2/P2P4/B4N2/5PPP/1R1Q1RK1 w - - 0 20";
  constexpr const char* line = "e6+ Kxe6 Re1+ Kf6 Ne5 Qc7 Qf3 Rae8 Ng4+";
  const auto attack = study::attack_on_king(facts_of(fen, "", line, 211));
  REQUIRE(attack);
  CHECK(attack->squares.front() == rules::f6);
  CHECK(attack->squares.size() == 6);
  CHECK(attack->pieces.size() == attack->squares.size());
  CHECK_FALSE(study::attack_on_king(facts_of(fen, "", line, 100)));
  CHECK_FALSE(study::attack_on_king(facts_of(fen, "", "e6+ Kxe6 Qb3 Kf6", 400)));
}

TEST_CASE("a passed pawn runs where it goes on and nothing takes it") {
  const auto runs =
      study::running_pawn(facts_of("8/8/8/8/8/k7/7P/K7 w - - 0 1", "", "h4 Kb3 h5 Kc3 h6", 900));
  REQUIRE(runs);
  CHECK(runs->squares == std::vector<Square>{rules::h2, rules::h6});
  // It promotes, and is taken: whoever takes it is drawn off.
  const auto given =
      study::running_pawn(facts_of("8/8/1P6/8/8/7k/7q/K7 w - - 0 1", "", "b7 Kg2 b8=Q Qxb8", 100));
  REQUIRE(given);
  CHECK(given->means == Means::guard_drawn_off);
  CHECK(given->means_squares == std::vector<Square>{rules::h2});
  // Grischuk-Filippov, Tripoli 2004 (shared/data/pgn/events/FideChamp2004.pgn), 55... Kb2: one push
  // is enough where the pawn queens to stay, and for a side that is winning.
  constexpr const char* near = "4R3/8/5P2/7p/8/8/p5K1/kr6 b - - 2 55";
  constexpr const char* queens = "Kb2 f7 a1=Q f8=Q Rg1+ Kf3 Qf1+";
  const auto one = study::running_pawn(facts_of(near, "", queens, 661));
  REQUIRE(one);
  CHECK(one->squares == std::vector<Square>{rules::a2, rules::a1});
  CHECK(one->pieces == std::vector<rules::PieceType>{rules::pawn, rules::queen});
  CHECK_FALSE(study::running_pawn(facts_of(near, "", queens, 100)));
  CHECK_FALSE(study::running_pawn(facts_of(near, "", "Kb2 Re2+ Kb3 f7", 661)));
  CHECK_FALSE(study::running_pawn(
      facts_of("8/6p1/8/8/8/k7/7P/K7 w - - 0 1", "", "h4 Kb3 h5 Kc3 h6 gxh6", 900)));
  CHECK_FALSE(
      study::running_pawn(facts_of("8/8/8/8/8/k7/7P/K7 w - - 0 1", "", "h4 Kb3 h5 Kc3 h6", -100)));
}

TEST_CASE("a trade into an ending is told where it decides") {
  constexpr const char* fen = "4k3/p2r4/8/8/8/8/P2R4/4K3 w - - 0 1";
  CHECK_FALSE(study::ending_entered(facts_of(fen, "", "Rxd7 Kxd7 Kd2", 0)));  // it was one before
  constexpr const char* more = "3bk3/p2r4/8/8/8/8/P2R4/3BK3 w - - 0 1";
  const auto bishops = study::ending_entered(facts_of(more, "", "Rxd7 Kxd7 Kd2", 0));
  REQUIRE(bishops);
  CHECK(bishops->pieces == std::vector<rules::PieceType>{rules::bishop});
  CHECK_FALSE(bishops->favours);
  const auto won = study::ending_entered(facts_of(more, "", "Rxd7 Kxd7 Kd2", 900));
  REQUIRE(won);
  CHECK(won->favours == rules::white);
  CHECK_FALSE(study::ending_entered(facts_of(more, "", "Rxd7 Kxd7 Kd2", 60)));
}
