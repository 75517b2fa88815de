// What a move does on the board: positions where each holds, and near misses where it does not.
// Made for the test unless a source is named; the definitions stand at the tops of
// attacks_made.cpp and places_taken.cpp.
#include <catch2/catch.hpp>

#include "attacks_made.hpp"
#include "places_taken.hpp"
#include "support/move_facts_made.hpp"

using namespace kairos;
using rules::Square;
using study::Means;
using study::Reason;
using study::ReasonKind;
using test::check;
using test::facts_of;

TEST_CASE("a man is hit that was not before, where the line minds it") {
  check(
      {
          // A bishop attacks a knight: it goes away, is guarded, is left alone, is taken.
          {"4k3/7p/2n5/8/8/8/4B3/4K3 w - - 0 1", "Bb5 Kd7", ReasonKind::hits, {rules::c6}},
          {"4k3/7p/2n5/8/8/8/4B3/4K3 w - - 0 1", "Bf3 Ne5", ReasonKind::drives_off, {rules::c6}},
          {"4k3/7p/2n5/8/8/8/4B3/4K3 w - - 0 1", "Bf3 h5 Kf2", std::nullopt, {}},
          {"4k3/7p/2n5/8/8/8/4B3/4K3 w - - 0 1", "Bf3 h5 Bxc6+", ReasonKind::hits, {rules::c6}},
          // It was attacked before; the hitter is taken; the man hit goes away by taking.
          {"4k3/7p/2n5/8/8/5B2/8/4K3 w - - 0 1", "Be4 Ne5", std::nullopt, {}},
          {"4k3/8/2n5/8/8/8/4B1r1/4K3 w - - 0 1",
           "Bf3 Rg1+",
           ReasonKind::hits,
           {rules::g2, rules::c6}},
          {"4k3/7p/2n5/8/5r2/8/4B3/4K3 w - - 0 1", "Bf3 Rxf3", std::nullopt, {}},
          {"4k3/7p/2n5/8/1P6/8/4B3/4K3 w - - 0 1", "Bf3 Nxb4", std::nullopt, {}},
          // A pawn is hit where it falls, not where it goes on.
          {"4k3/8/3p4/8/8/8/8/R3K3 w - - 0 1", "Ra6 d5 Kd2", std::nullopt, {}},
          {"4k3/8/3p4/8/8/8/8/R3K3 w - - 0 1",
           "Ra6 Kd7 Kd2 Kd8 Rxd6+",
           ReasonKind::hits,
           {rules::d6}},
      },
      study::men_hit);
}

TEST_CASE("two men hit are a fork, with the king of a check first") {
  const auto fork =
      study::men_hit(facts_of("r3k3/8/8/3N4/8/8/5PPP/6K1 w q - 0 1", "", "Nc7+ Kd7 Nxa8", 300));
  REQUIRE(fork);
  CHECK(fork->kind == ReasonKind::hits);
  CHECK(fork->means == Means::fork);
  CHECK(fork->squares == std::vector<Square>{rules::e8, rules::a8});
  // The same by a pawn; a rook that is guarded by its neighbour is worth more than the pawn.
  const auto pawn =
      study::men_hit(facts_of("4k3/8/2n1r3/8/3P4/8/8/6K1 w - - 0 1", "", "d5 Re4 Kf2", 300));
  REQUIRE(pawn);
  CHECK(pawn->squares == std::vector<Square>{rules::c6, rules::e6});
  // A man of its own line, opened by the move.
  const auto opened =
      study::men_hit(facts_of("3rk3/8/8/8/8/8/3N4/3RK3 w - - 0 1", "", "Ne4 Rxd1+ Kxd1", 300));
  CHECK_FALSE(opened);  // the rooks looked at each other; the reply takes
}

TEST_CASE("a capture that hits something is told as a capture") {
  // Kotov-Smyslov, move 21 (shared/data): a knight is taken and the queen hit.
  const auto takes =
      study::men_hit(facts_of("2rr2k1/1b1nqp1p/p5p1/1p1R4/1P2p3/PNb1P3/1BQ1BPPP/R5K1 w - - 0 21",
                              "", "Rxd7 Bxb4 Rxe7", 300));
  REQUIRE(takes);
  CHECK(takes->kind == ReasonKind::takes);
  CHECK(takes->squares == std::vector<Square>{rules::d7, rules::e7});
  CHECK(takes->pieces == std::vector<rules::PieceType>{rules::knight, rules::queen});
  // Taken back, it hits nothing.
  CHECK_FALSE(
      study::men_hit(facts_of("2rr2k1/1b1nqp1p/p5p1/1p1R4/1P2p3/PNb1P3/1BQ1BPPP/R5K1 w - - 0 21",
                              "", "Rxd7 Rxd7 Bxc3", 300)));
  // A rook moves off the guard of its queen (Kotov-Smyslov, move 33).
  constexpr const char* queens = "4r3/5q1k/p5p1/2N2p1p/PPQ1p3/4P2P/1B3PP1/2Rr2K1 w - - 1 33";
  const auto left = study::man_left_taken(facts_of(queens, "Rxd1", "Qxc4", 0));
  REQUIRE(left);
  CHECK(left->means == Means::guard_gone);
  CHECK(left->pieces == std::vector<rules::PieceType>{rules::queen});
  CHECK_FALSE(study::man_left_taken(facts_of(queens, "Kh2", "Qxc4 Rxc4", 0)));
}

TEST_CASE("that a move takes a man is told where it is all") {
  constexpr const char* fen = "4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1";
  check({{fen, "exd5 Kd7", ReasonKind::takes, {rules::d5}},
         {"4k3/8/4p3/3p4/4P3/8/8/4K3 w - - 0 1", "exd5 exd5", std::nullopt, {}},
         {fen, "e5 Kd7", std::nullopt, {}}},
        study::man_taken);
  CHECK_FALSE(study::man_taken(facts_of(fen, "", "exd5 Kd7", 500)));  // there is more to it
  // It has just come there.
  constexpr const char* given = "4k3/3n4/8/8/8/8/8/3RK3 b - - 0 1";
  CHECK_FALSE(study::man_taken(facts_of(given, "Nc5", "Rd5 Na4", 0)));
  CHECK_FALSE(study::man_taken(facts_of("4k3/8/8/2n5/8/8/8/3RK3 b - - 0 1", "Nd7", "Rxd7", 500)));
}

TEST_CASE("a pawn falls that lost its guard, which was a pawn") {
  // Radjabov-Cheparinov (open game file), move 15.
  const auto taken = study::man_left_taken(
      facts_of("2kr1b1r/pb1n1p2/2p1p2p/1p2Pq2/P1pP3P/2N3B1/1P2BPP1/R2QK2R b KQ - 0 15", "b4",
               "Bxc4 Rg8 Bd3", 94));
  REQUIRE(taken);
  CHECK(taken->kind == ReasonKind::takes);
  CHECK(taken->means == Means::guard_gone);
  CHECK(taken->squares == std::vector<Square>{rules::c4});
}

TEST_CASE("a man driven off lets go what it guarded") {
  constexpr const char* fen = "4k3/8/2n5/4p3/8/5N2/4B3/4K3 w - - 0 1";
  const auto driven = study::men_hit(facts_of(fen, "", "Bb5 Kd7", 100));
  REQUIRE(driven);
  CHECK(driven->kind == ReasonKind::hits);  // pinned, it cannot go
  constexpr const char* free = "8/4k3/2n5/4p3/8/5N2/4B3/4K3 w - - 0 1";
  const auto off = study::men_hit(facts_of(free, "", "Bb5 Na5 Nxe5", 100));
  REQUIRE(off);
  CHECK(off->kind == ReasonKind::drives_off);
  CHECK(off->squares == std::vector<Square>{rules::c6, rules::e5});
  // From b8 it guards e5 no more either, but the knight takes elsewhere.
  const auto away = study::men_hit(facts_of(free, "", "Bb5 Na5 Kf2", 100));
  REQUIRE(away);
  CHECK(away->squares == std::vector<Square>{rules::c6});
}

TEST_CASE("a man hangs as before, though a check had to be minded") {
  // Lautier-Polgar, move 36 (shared/data).
  constexpr const char* fen = "4R3/1p1r2pk/4Qpn1/7p/p2P4/5N1P/PP3PP1/1q4K1 w - - 2 36";
  const auto keeps = study::man_kept_under_attack(facts_of(fen, "", "Kh2 Rc7", 420));
  REQUIRE(keeps);
  CHECK(keeps->squares == std::vector<Square>{rules::d7});
  CHECK_FALSE(study::man_kept_under_attack(facts_of(fen, "", "Kh2 Qxb2", 420)));  // not minded
  CHECK_FALSE(study::man_kept_under_attack(facts_of(fen, "", "Qe1 Rc7", 420)));   // given up
  CHECK(study::man_kept_under_attack(facts_of(fen, "", "Kh2 Rc7", 420, "Qe1 Qxb2")));
  CHECK_FALSE(study::man_kept_under_attack(facts_of(fen, "", "Kh2 Rc7", 420, "Ne1 Qxb2")));
}

TEST_CASE("the fork and the threat of mate that the next move makes are seen") {
  // Stahlberg-Kotov, move 34 (shared/data): the knight forks, and a rook has to take it.
  constexpr const char* fen = "2rqr3/pp1n2kp/3p1bb1/2pP1p2/2P1pN1P/PPN3P1/2B1QP2/4RRK1 w - - 2 34";
  const auto fork = study::fork_to_come(facts_of(fen, "", "Nxe4 fxe4 Ne6+ Rxe6 dxe6", 87));
  REQUIRE(fork);
  CHECK(fork->squares.front() == rules::e6);
  CHECK(fork->squares.size() >= 3);
  CHECK_FALSE(study::fork_to_come(facts_of(fen, "", "Nxe4 fxe4 Bxe4 Ne5 Nh5+", 87)));
  const auto mate = study::mate_threat_to_come(facts_of(
      "4R3/1p1r2pk/4Qpn1/7p/p2P4/5N1P/PP3PP1/1q4K1 w - - 2 36", "", "Kh2 Rc7 Qd5 Qc1", 420));
  REQUIRE(mate);
  CHECK(mate->squares == std::vector<Square>{rules::h5});
  CHECK_FALSE(study::mate_threat_to_come(
      facts_of("4R3/1p1r2pk/4Qpn1/7p/p2P4/5N1P/PP3PP1/1q4K1 w - - 2 36", "", "Kh2 Rc7 d5", 420)));
}

TEST_CASE("mate in one that is threatened is met, or is not") {
  constexpr const char* fen = "6k1/5ppp/8/4P3/8/8/r4PPP/6K1 w - - 0 1";
  const auto met_by = [](const char* position, const char* move, const char* other) {
    return study::mate_met(facts_of(position, "", move, 0),
                           support::move(support::position(position), other));
  };
  const auto met = met_by(fen, "h3", "e6");
  REQUIRE(met);
  CHECK(met->kind == ReasonKind::prevents);
  CHECK(met->squares == std::vector<Square>{rules::a1});
  CHECK_FALSE(met_by(fen, "e6", "h3"));
  CHECK_FALSE(met_by(fen, "h3", "g3"));  // that meets it as well
  CHECK_FALSE(met_by("6k1/5ppp/8/4P3/8/8/5PPP/6K1 w - - 0 1", "h3", "e6"));
  // A check puts it off.
  CHECK_FALSE(met_by("6k1/5ppp/2N5/8/8/8/r4PPP/6K1 w - - 0 1", "Ne7+", "Nd4"));
}

TEST_CASE("men are traded for their like, or offered for it") {
  constexpr const char* ahead = "3qk3/8/8/8/8/8/3P4/4K2Q w - - 0 1";
  check(
      {
          {"3rk3/8/8/8/8/8/1P6/3RK3 w - - 0 1", "Rxd8+ Kxd8", ReasonKind::trades, {rules::d8}},
          {"3rk3/8/8/8/8/8/1P6/3RK3 w - - 0 1", "Rxd8+", std::nullopt, {}},
          {"3nk3/8/8/8/8/8/1P6/3RK3 w - - 0 1", "Rxd8+ Kxd8", std::nullopt, {}},  // unlike
          {ahead, "Qh4 Qxh4+", std::nullopt, {}},                                 // given away
      },
      study::trade_made);
  // Offered and taken; declined, which is told of who is ahead; or worse, where it is not told.
  // What the next move takes, and is not taken back for, goes with it.
  const auto more_taken = study::trade_made(
      facts_of("3rk3/8/8/4n3/8/8/1P6/3RK2Q w - - 0 1", "", "Rxd8+ Kxd8 Qe4 Kc7", 900));
  REQUIRE(more_taken);
  CHECK(more_taken->squares == std::vector<Square>{rules::d8});
  const auto knight_too = study::trade_made(
      facts_of("3rk3/8/8/4n3/8/6B1/1P6/3RK3 w - - 0 1", "", "Rxd8+ Kxd8 Bxe5 Kd7", 900));
  REQUIRE(knight_too);
  CHECK(knight_too->squares == std::vector<Square>{rules::d8, rules::e5});
  constexpr const char* rooks = "r7/1k6/1p6/8/8/1P6/1K6/7R w - - 0 1";
  constexpr const char* more = "r7/1k6/8/8/8/1P6/1K6/7R w - - 0 1";
  check({{rooks, "Ra1 Rxa1 Kxa1", std::nullopt, {}}}, study::trade_made, -300);
  check({{rooks, "Ra1 Rxa1 Kxa1", ReasonKind::offers_trade, {rules::a1}},
         {rooks, "Ra1 Rd8 Kc2", std::nullopt, {}},
         {more, "Ra1 Rd8 Kc2", ReasonKind::offers_trade, {rules::a1}},
         {more, "Rd1 Rd8 Rxd8", std::nullopt, {}},
         {"4k3/8/8/4p3/8/8/3P4/4K3 w - - 0 1", "d4 exd4 Kd2", std::nullopt, {}}},  // pawns
        study::trade_made);
  CHECK(study::trade_made(facts_of(more, "", "Ra1 Rd8 Kc2", 100))->gain == 100);
  // A reply that does no more than trade is told of queens and of the last rooks alone.
  constexpr const char* reply_queens = "3qk3/8/8/8/8/8/8/1Q2K3 b - - 0 1";
  CHECK(
      study::trade_made(facts_of("3rk3/8/8/8/8/8/8/3R1K2 w - - 0 1", "Ke2", "Rxd1 Kxd1 Ke7", 50)));
  CHECK_FALSE(study::trade_made(
      facts_of("r2rk3/8/8/8/8/8/8/3R1K1R w - - 0 1", "Ke2", "Rxd1 Kxd1 Ke7", 50)));
  CHECK(study::trade_made(facts_of("3qk3/8/8/8/8/8/8/3Q1K2 w - - 0 1", "Ke2", "Qxd1+ Kxd1", 50)));
  CHECK_FALSE(study::trade_made(facts_of(reply_queens, "Qd5", "Qb5+ Qxb5", 0)));  // given away
}

TEST_CASE("a trade of queens is no reason for one move where the other trades them too") {
  // Suba-Ribli, Las Palmas 1982 (shared/data/pgn/events/Interzonal1982a.pgn): 40... Qd5, played,
  // offers the queens as 40... Qc4 does.
  constexpr const char* fen = "2r5/5pkp/1pq2np1/4p1N1/3b4/1Q2B1P1/1P3P1P/4R1K1 b - - 20 40";
  constexpr const char* line = "Qc4 Qxc4 Rxc4 Bxd4 exd4 Kg2";
  const auto offered = study::trade_made(facts_of(fen, "", line, 163));
  REQUIRE(offered);
  CHECK(offered->kind == ReasonKind::offers_trade);
  CHECK_FALSE(study::trade_made(facts_of(fen, "", line, 163, "Qd5 Qxd5 Nxd5 Bxd4 exd4 Rd1")));
  CHECK(study::trade_made(facts_of(fen, "", line, 163, "Qd5 Qc2 Rd8 Bxd4 exd4 Rd1")));
}

TEST_CASE("a move guards or saves what falls after another") {
  constexpr const char* fen = "8/8/8/2r5/3P4/8/4K3/7k w - - 0 1";
  const auto guards = study::man_guarded(facts_of(fen, "", "Ke3 Rc3+", 0, "Kf3 Rc4 Ke3 Rxd4"));
  CHECK_FALSE(guards);  // the king guards it after the other move in time: nothing is lost at once
  constexpr const char* hit = "8/8/8/3r4/3P4/8/4K3/7k w - - 0 1";
  const auto saved = study::man_guarded(facts_of(hit, "", "Ke3 Rd8", 0, "Kf3 Rxd4"));
  REQUIRE(saved);
  CHECK(saved->squares == std::vector<Square>{rules::d4});
  CHECK_FALSE(study::man_guarded(facts_of(hit, "", "Kf2 Rxd4", -300, "Kf3 Rxd4")));
  // The other move takes the guard away (Kotov-Smyslov, move 33).
  const auto kept =
      study::man_guarded(facts_of("4r3/5q1k/p5p1/2N2p1p/PPQ1p3/4P2P/1B3PP1/2Rr2K1 w - - 1 33", "",
                                  "Kh2 Qxc4 Rxc4", 466, "Rxd1 Qxc4"));
  REQUIRE(kept);
  CHECK(kept->squares == std::vector<Square>{rules::c4});
  CHECK(kept->means == Means::guard_gone);
  // A knight that goes to safety.
  constexpr const char* knight = "4k3/8/8/8/8/2p5/1N5P/4K3 w - - 0 1";
  const auto gone = study::man_guarded(facts_of(knight, "", "Nd3 Kd7", 0, "h3 cxb2"));
  REQUIRE(gone);
  CHECK(gone->squares == std::vector<Square>{rules::b2});
  CHECK(gone->move.from() == rules::b2);
}

TEST_CASE("a check is stepped out of before it comes") {
  constexpr const char* fen = "7k/8/4p3/8/8/8/8/K3Q3 b - - 0 1";
  const auto avoids = study::check_avoided(facts_of(fen, "", "Kg7 Qxe6", 0, "Kg8 Qxe6+"));
  REQUIRE(avoids);
  CHECK(avoids->squares == std::vector<Square>{rules::e6});
  CHECK_FALSE(study::check_avoided(facts_of(fen, "", "Kg7 Qe5+", 0, "Kg8 Qxe6+")));
  CHECK_FALSE(study::check_avoided(facts_of(fen, "", "Kg8 Qxe6+", 0, "Kg7 Qxe6")));
}

TEST_CASE("a man that has to go back has lost time") {
  constexpr const char* fen = "7r/4k3/8/8/8/8/P7/1K6 b - - 0 1";
  const auto back = study::man_sent_back(facts_of(fen, "Rh1+", "Kb2 Kd7 a4 Rh8", 0));
  REQUIRE(back);
  CHECK(back->squares == std::vector<Square>{rules::h1, rules::h8});
  CHECK_FALSE(study::man_sent_back(facts_of(fen, "Rh1+", "Kb2 Kd7 a4 Rh7", 0)));
}

TEST_CASE("a square is used that the move before let go") {
  constexpr const char* fen = "3r2k1/5ppp/8/8/8/8/8/R6K b - - 0 1";
  const auto used = study::square_used(facts_of(fen, "Rd2", "Ra8+ Rd8", 300));
  REQUIRE(used);
  CHECK(used->means == Means::square_unguarded);
  CHECK(used->squares == std::vector<Square>{rules::a8});
  CHECK_FALSE(study::square_used(facts_of(fen, "Rb8", "Ra2", 0)));
}

TEST_CASE("passed pawns are made, stopped, and followed by rooks") {
  check({{"4k3/6p1/7p/6P1/7P/8/8/4K3 w - - 0 1", "gxh6 gxh6 Kf2", std::nullopt, {}},
         {"4k3/8/7p/6P1/8/8/8/4K3 w - - 0 1", "g6 Ke7", ReasonKind::makes_passed, {rules::g6}},
         {"8/4k3/7p/6P1/8/8/8/4K3 w - - 0 1", "g6 Kf6 Kf2 Kxg6", std::nullopt, {}},  // taken
         {"4k3/8/8/6P1/8/8/8/4K3 w - - 0 1", "g6 Ke7", std::nullopt, {}}},           // it was one
        study::pawn_placed);
  check({{"4k3/8/8/8/8/1p6/8/2B1K3 w - - 0 1", "Bb2 Kd7", ReasonKind::stops_pawn, {rules::b3}},
         {"4k3/8/8/8/8/1p6/8/2B1K3 w - - 0 1", "Ba3 b2", std::nullopt, {}},
         {"4k3/8/8/8/8/4p3/8/R6K w - - 0 1", "Re1 e2 Kg2", ReasonKind::stops_pawn, {rules::e3}},
         {"4k3/8/8/1p6/8/8/8/2B1K3 w - - 0 1", "Bb2 Kd7", std::nullopt, {}},  // not far
         {"4k3/8/8/P7/8/8/8/2R1K3 w - - 0 1", "Ra1 Kd7", ReasonKind::behind_pawn, {rules::a5}},
         {"4k3/8/8/P7/8/8/8/R3K3 w - - 0 1", "Ra2 Kd7", std::nullopt, {}},     // it was behind it
         {"4k3/p7/8/P7/8/8/8/2R1K3 w - - 0 1", "Ra1 Kd7", std::nullopt, {}}},  // not passed
        study::passed_pawn_met);
}

TEST_CASE("a rook takes a file that it then uses, or the seventh rank") {
  check({{"1r2k3/p4p2/8/8/8/8/P4P2/R3K3 w - - 0 1",
          "Rc1 Kf8 Rc7",
          ReasonKind::open_file,
          {rules::c1}},
         {"1r2k3/p4p2/8/8/8/8/P4P2/R3K3 w - - 0 1", "Rc1 Kf8 Ke2", std::nullopt, {}},
         {"2r1k3/p4p2/8/8/8/8/P4P2/R3K3 w - - 0 1", "Rc1 Rb8 Rc7", std::nullopt, {}},  // watched
         {"1r2k3/p4p2/8/8/8/8/P4P2/2R1K3 w - - 0 1",
          "Rc7 a6 Ke2",
          ReasonKind::seventh_rank,
          {rules::c7}},
         {"1r2k3/p4p2/8/8/8/8/P4P2/2R1K3 w - - 0 1", "Rc7 Kd8 Rc1", std::nullopt, {}}},
        study::rook_placed);
}

TEST_CASE("a king goes in where no queens are, of its own will and at once") {
  constexpr const char* fen = "8/5k2/8/8/8/8/5K2/R6r w - - 0 1";
  const auto comes = study::king_brought(facts_of(fen, "", "Ke3 Rh3+ Kd4 Rh4+ Kd5 Rh5+", 100));
  CHECK_FALSE(comes);  // two of three moves leave a check
  const auto goes = study::king_brought(facts_of(fen, "", "Ke3 Rh5 Kd4 Rg5 Ke4", 100));
  REQUIRE(goes);
  CHECK(goes->squares == std::vector<Square>{rules::f2, rules::e4});
  CHECK_FALSE(study::king_brought(
      facts_of("q7/5k2/8/8/8/8/5K2/R6r w - - 0 1", "", "Ke3 Rh5 Kd4 Rg5 Ke3", 100)));
}

TEST_CASE("a trade of queens hits no queen") {
  // John-Janowsky, Mannheim 1914 (shared/data/pgn/events/Mannheim1914.pgn), had Black played
  // 9... Qxd6.
  constexpr const char* fen = "r1bqkbnr/p3pp1p/2pP2p1/8/2B5/2N5/PPP2PPP/R1BQK2R b KQkq - 0 9";
  CHECK_FALSE(study::men_hit(facts_of(fen, "", "Qxd6 O-O Qxd1 Rxd1 Nf6", -98)));
}
