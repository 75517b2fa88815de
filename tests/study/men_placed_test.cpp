// How men stand after a move: positions where each holds, and near misses where it does not. Made
// for the test unless a source is named; the definitions stand at the top of men_placed.cpp.
#include "men_placed.hpp"

#include <catch2/catch.hpp>

#include "support/move_facts_made.hpp"

using namespace kairos;
using rules::Square;
using study::ReasonKind;
using test::check;
using test::facts_of;

TEST_CASE("a piece is pinned that was not, and stays so") {
  constexpr const char* knight = "4k3/8/2n5/8/8/8/8/4KB2 w - - 0 1";
  constexpr const char* queen = "8/1q5k/2n5/8/8/8/6B1/4K3 w - - 0 1";
  check({{knight, "Bb5 Kd7 Ke2 Kd6", ReasonKind::pins, {rules::c6, rules::e8}},
         {knight, "Bh3 Kd8 Ke2 Nd4+", std::nullopt, {}},
         {"4k3/8/2p5/8/8/8/8/4KB2 w - - 0 1", "Bb5 Kd7 Ke2 Kd6", std::nullopt, {}},  // a pawn
         {"4k3/8/p1n5/8/8/8/8/4KB2 w - - 0 1", "Bb5 axb5 Kd2 Kd7", std::nullopt, {}},
         {queen, "Bf3 Kg7 Ke2 Kf6", std::nullopt, {}},  // it was before
         {"8/1q5k/2n5/8/8/8/8/4KB2 w - - 0 1",
          "Bg2 Kg7 Ke2 Kf6",
          ReasonKind::pins,
          {rules::c6, rules::b7}},
         {"8/1q5k/2n5/8/8/8/8/4KB2 w - - 0 1", "Bg2 Ne5 Bxb7 Kg6", std::nullopt, {}}},
        study::man_pinned);
}

TEST_CASE("a knight settles where no pawn can drive it off") {
  constexpr const char* moves = "Nf5 Kd7 Kf2 Kd8 Kf3 Kd7 Kf2 Kd8";
  check({{"4k3/7p/8/8/4P3/6N1/8/4K3 w - - 0 1", moves, ReasonKind::settles, {rules::f5}},
         {"4k3/6p1/8/8/4P3/6N1/8/4K3 w - - 0 1", moves, std::nullopt, {}},  // ... g6 comes
         {"4k3/7p/8/8/8/6N1/8/4K3 w - - 0 1", moves, std::nullopt, {}},     // no guard
         {"4k3/7p/8/8/4P3/6N1/8/4K3 w - - 0 1", "Nf5 Kd7 Kf2 Kd8 Nd4", std::nullopt, {}}},
        study::knight_settled);
}

TEST_CASE("pawns are doubled by what takes back, and stay so") {
  // Svidler-Anand, Wijk aan Zee 1999 (open game file), had Black played 8... e6.
  constexpr const char* fen = "rn1qkb1r/pp2ppp1/2p2nbp/4N3/3P3P/6N1/PPP2PP1/R1BQKB1R b KQkq - 3 8";
  const auto doubled =
      study::pawns_doubled(facts_of(fen, "e6", "Nxg6 fxg6 Bd3 Kf7 c3 c5 Ne2 Nd5", 174));
  REQUIRE(doubled);
  CHECK(doubled->squares == std::vector<Square>{rules::g6});
  CHECK_FALSE(study::pawns_doubled(facts_of(fen, "e6", "Nxg6", 174)));
  // A piece takes back.
  check({{"4k3/8/2n5/1B6/8/8/8/4K3 w - - 0 1",
          "Bxc6+ Kd8 Ba4 Kc8 Bb3 Kb8 Ba2 Ka8",
          std::nullopt,
          {}}},
        study::pawns_doubled);
}

TEST_CASE("a piece that hung goes to safety") {
  // Karpov-Grigorian, Soviet championship 1973 (shared/data/pgn/events/SovietChamp1973.pgn),
  // 19... Qa5: the pawn on a3 attacks the queen.
  constexpr const char* queen = "r1b1r1k1/pp3ppp/3n4/3P4/1q2N3/PB3Q2/5PPP/R3R1K1 b - - 0 19";
  check({{queen, "Qa5 Re3 Rxe4 Rxe4 Nxe4", ReasonKind::evades, {rules::b4}},
         {queen, "Qxe4 Rxe4 Rxe4", std::nullopt, {}},  // it takes something
         {queen, "Bg4 axb4", std::nullopt, {}},        // another man moves
         {queen, "Qc4 Bxc4", std::nullopt, {}},        // out of one attack into another
         {"4k3/8/8/8/8/8/1P6/R3K3 w - - 0 1", "Ra5 Kd7", std::nullopt, {}}},  // it did not hang
        study::man_evaded);
}

TEST_CASE("a pawn that would promote after another move is stopped from afar") {
  // Onischuk-Pelletier, Biel 2008 (shared/data/pgn/rated/Biel2008.pgn), 32. Bc2.
  constexpr const char* fen = "3r1k2/R4ppp/b7/8/4B3/P4PP1/3pPK1P/8 w - - 0 32";
  const auto stops = study::promotion_stopped(facts_of(fen, "", "Bc2 Rd6 Bd1", 179, "Rxa6 d1=Q"));
  REQUIRE(stops);
  CHECK(stops->kind == ReasonKind::stops_pawn);
  CHECK(stops->squares == std::vector<Square>{rules::d2});
  CHECK_FALSE(study::promotion_stopped(facts_of(fen, "", "Bc2 Rd6 Bd1", 179, "Rxa6 g6")));
  CHECK_FALSE(study::promotion_stopped(facts_of(fen, "", "Bd3 d1=Q", -500, "Rxa6 d1=Q")));
}

TEST_CASE("a check that moves the king takes away the right to castle") {
  // Asztalos-Breyer, Budapest 1913 (shared/data/pgn/events/Budapest1913.pgn), after 13... g5.
  constexpr const char* fen =
      "r1b1k2r/pp1nq2p/3bp3/2p2pp1/2PPpP2/1N2P1P1/PP2B2P/R1BQ1RK1 w kq - 0 14";
  check({{fen, "Bh5+ Kf8 Nxc5", ReasonKind::stops_castling, {rules::e8}},
         {fen, "Bh5+ Qf7 Bxf7+", std::nullopt, {}},                             // the king stays
         {"r3k2r/8/8/8/8/8/8/3RK3 w kq - 0 1", "Rd8+ Kxd8", std::nullopt, {}},  // no queens
         {"3qk3/8/8/8/8/8/8/4K2Q w - - 0 1", "Qe4+ Kf7", std::nullopt, {}}},    // no right
        study::castling_stopped);
}

TEST_CASE("the man that falls after another move stays where it is, or is guarded") {
  // Psakhis-Mestel, Las Palmas 1982 (shared/data/pgn/events/Interzonal1982a.pgn): after 38... Nc2
  // the pawn on b5 falls at move 42; 38... Rc5 begins to guard it.
  constexpr const char* fen = "r5k1/5p2/3p1n1p/1p1P2pP/2r1P1P1/n2R1PK1/NR6/3N4 b - - 3 38";
  const auto facts = facts_of(fen, "", "Rc5 Rdb3 Nc4 Rc2 Na3 Re2 Nc2 Rb2", -50);
  const auto guarded = study::man_kept(facts, rules::b5, 7);
  REQUIRE(guarded);
  CHECK(guarded->kind == ReasonKind::guards);
  CHECK(guarded->squares == std::vector<Square>{rules::b5});
  const auto kept = study::man_kept(facts, rules::d6, 7);
  REQUIRE(kept);
  CHECK(kept->kind == ReasonKind::keeps_man);
  CHECK(kept->pieces == std::vector<rules::PieceType>{rules::pawn});
  CHECK_FALSE(study::man_kept(facts, rules::b5, 9));  // the line is shorter
  CHECK_FALSE(study::man_kept(facts, rules::a3, 7));  // it goes away
  CHECK_FALSE(study::man_kept(facts, rules::e4, 7));  // of the other side
}
