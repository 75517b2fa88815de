// Each motif on an example, published where the fact sheet has one (section 6; M01.. are its
// numbers), else made for the test and checked by hand; and the other motifs it must not be.
#include "kairos/study/motifs.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "support/games.hpp"

using namespace kairos;
using study::Motif;

namespace {

struct Case {
  Motif motif;
  const char* source;
  const char* fen;
  const char* line;
};

const Case cases[] = {
    {Motif::smothered_mate, "NN-Greco, c.1620 (M04)",
     "r1b2rk1/pppp1ppp/8/2b1P3/2B3n1/5N2/PP3qPP/RNBQR2K b - - 1 12", "Qg1+ Nxg1 Nf2#"},
    {Motif::smothered_mate, "Timman-Short 1990 (M10)",
     "4r2k/2pRP1pp/2p5/p4pN1/2Q3n1/q5P1/P3PP1P/6K1 w - - 0 27", "Nf7+ Kg8 Nh6+ Kh8 Qg8+ Rxg8 Nf7#"},
    {Motif::back_rank, "common practice", "6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1", "Ra8#"},
    {Motif::double_check, "Reti-Tartakower, Vienna 1910 (M02), after 9...Kxd8",
     "rnbk1b1r/pp3ppp/2p5/4q3/4n3/8/PPPB1PPP/2KR1BNR w - - 0 10", "Bg5+ Kc7 Bd8#"},
    {Motif::decoy, "Reti-Tartakower, Vienna 1910 (M02)",
     "rnb1kb1r/pp3ppp/2p5/4q3/4n3/3Q4/PPPB1PPP/2KR1BNR w kq - 0 9", "Qd8+ Kxd8 Bg5+ Kc7 Bd8#"},
    {Motif::discovered_check, "made", "4k3/8/8/4N3/8/8/4R3/4K3 w - - 0 1", "Nc6+ Kd7 Nb8+"},
    {Motif::stalemate, "Evans-Reshevsky, US Championship 1963/64 (C02)",
     "2Q5/5Rpk/8/1p2p2p/1P2Pn1P/5Pq1/4r3/7K w - - 0 49", "Qg8+ Kxg8 Rxg7+ Kxg7"},
    {Motif::perpetual_check, "made", "6k1/6p1/8/7Q/8/1r6/2r5/K7 w - - 0 1",
     "Qe8+ Kh7 Qh5+ Kg8 Qe8+"},
    {Motif::underpromotion, "Saavedra 1895 (C01)", "8/2P5/8/8/3r4/8/2K5/k7 w - - 9 6",
     "c8=R Ra4 Kb3"},
    {Motif::underpromotion, "rook against pawn, Fine (from memory), table-checked (O11)",
     "8/8/8/8/8/3K4/R3p3/3k4 b - - 0 1", "e1=N+"},
    {Motif::promotion, "Saavedra 1895 (O05)", "8/2P5/1K1r4/8/8/8/8/k7 w - - 1 2",
     "Kb5 Rd5+ Kb4 Kb2 c8=Q"},
    {Motif::zugzwang, "each pawn falls to the side that need not move (common practice)",
     "8/8/8/2K1p3/4Pk2/8/8/8 w - - 0 1", "Kd5 Kg4 Kxe5"},
    {Motif::interference, "made", "6k1/8/8/r6n/4B3/8/8/3QK3 w - - 0 1", "Bd5+ Kg7 Qxh5"},
    {Motif::overloaded, "made", "4k3/3b4/5n2/1B1r4/8/8/3R4/4K3 w - - 0 1", "Bxd7+ Nxd7 Rxd5"},
    {Motif::deflection, "made", "2r3k1/5ppp/8/8/8/2q5/3Q1PPP/4R1K1 w - - 0 1", "Re8+ Rxe8 Qxc3"},
    {Motif::removing_the_guard, "made", "4k3/4p3/5n2/3r2B1/8/8/3R4/4K3 w - - 0 1",
     "Bxf6 exf6 Rxd5"},
    {Motif::x_ray, "made", "6k1/5ppp/8/1Q2r3/8/8/5PPP/4R1K1 w - - 0 1", "Qe8+ Rxe8 Rxe8#"},
    {Motif::discovered_attack, "von Popiel-Marco, Monte Carlo 1902 (Q09)",
     "7k/1b1r2p1/p6p/1p2qN2/3bP3/3Q4/P5PP/1B1R3K b - - 1 36", "Bg1 Kxg1 Rxd3"},
    {Motif::skewer, "made", "q3k3/8/8/8/8/8/8/4K2R w - - 0 1", "Rh8+ Kd7 Rxa8"},
    {Motif::fork, "Combe-Hasenfuss, Folkestone 1933 (S11), after 4.Nxe5",
     "rnbqkbnr/pp1p1ppp/8/4N3/2Pp4/8/PP2PPPP/RNBQKB1R b KQkq - 0 4", "Qa5+ Bd2 Qxe5"},
    {Motif::pin, "made: the pinned man falls", "4k3/8/2n5/8/8/8/8/4KB2 w - - 0 1", "Bb5 Kf7 Bxc6"},
    {Motif::pin, "made: the pinned pawn may not take", "3k4/8/3p4/4r3/8/8/8/3RR1K1 w - - 0 1",
     "Rxe5"},
    {Motif::trapped_piece, "Lazard's trap (Q10): the queen has no square",
     "rnbqkb1r/pppp1ppp/8/4P3/6n1/7P/PPPNPPP1/R1BQKBNR b KQkq - 0 4", "Ne3 Ngf3 Nxd1"},
    {Motif::clearance, "made", "5rk1/5pp1/6P1/8/8/8/K7/2Q4R w - - 0 1", "Rh8+ Kxh8 Qh1+ Kg8 Qh7#"},
    {Motif::sacrifice, "Rotlewi-Rubinstein, Lodz 1907 (Q02)",
     "3r2k1/1b3ppp/pb2p3/1p2P3/1P2BPnP/P1r5/1B2Q2P/R4R1K b - - 0 23", "Rd2"},
};

// The edges of the rules: of each pair the one holds and its neighbour does not. Positions of
// `motifs_table_test.cpp` with the lines that the program finds there, or made from them.
struct Edge {
  Motif motif;
  bool holds;
  const char* what;
  const char* fen;
  const char* line;
};

const Edge edges[] = {
    {Motif::smothered_mate, false, "WAC.008: a long line with quiet moves happens to end so",
     "r4q1k/p2bR1rp/2p2Q1N/5p2/5p2/2P5/PP3PPP/R5K1 w - - 0 1",
     "Rf7 Qxf7 Nxf7+ Kg8 Nh6+ Kh8 Re1 Be6 Rxe6 c5 Re7 Rg8 Nf7#"},
    {Motif::smothered_mate, true, "S06: check after check",
     "r1b2rk1/pppp1ppp/8/2b1P3/2B3nq/5N2/PP3PPP/RNBQR1K1 b - - 1 11", "Qxf2+ Kh1 Qg1+ Nxg1 Nf2#"},
    {Motif::back_rank, false, "BK.01: a guarded rook next to the king",
     "1k1r4/pp1b1R2/3q2pp/4p3/2B5/4Q3/PPP2B2/2K5 b - - 0 1", "Qd1+ Kxd1 Bg4+ Kc1 Rd1#"},
    {Motif::promotion, false, "CMB.05: pieces are won on the way",
     "2r2r2/3qbpkp/p3n1p1/2ppP3/6Q1/1P1B3R/PBP3PP/5R1K w - - 0 1",
     "Rxh7+ Kxh7 Rxf7+ Rxf7 Qxg6+ Kh8 Qxf7 Ng5 e6+ d4 exd7 Nxf7 dxc8=Q+"},
    {Motif::promotion, true, "FIN.01: only pawns", "8/1p3pp1/7p/5P1P/2k3P1/8/2K2P2/8 w - - 0 1",
     "f6 gxf6 f4 Kd5 g5 fxg5 fxg5 hxg5 h6 g4 h7 g3 h8=Q"},

    {Motif::deflection, true, "Adams-Torre: rook and queen both guard e8; refused",
     "2r1r1k1/1pQ2ppp/3p1b2/pq1P4/4R3/5N2/1P3PPP/4R1K1 w - - 2 23", "Qxb7 Qa4 Rxa4"},
    {Motif::deflection, false, "made: the pawn that may take the rook guards nothing",
     "6k1/5ppp/1p6/8/8/8/R7/6K1 w - - 0 1", "Ra5 h6 Ra8+ Kh7"},
    {Motif::deflection, false, "Bernstein-Capablanca (Q01): refused, but the line shows a fork",
     "3r2k1/p4ppp/1q6/8/8/2R1P3/P3QPPP/6K1 b - - 0 29", "Qb2 Qe1 Qxc3 Qxc3 Rd1+ Qe1 Rxe1#"},
    {Motif::deflection, true, "WAC.236: a check comes before the stroke on e2",
     "1R6/p5pk/4p2p/4P3/8/2r3qP/P3R1b1/4Q1K1 b - - 0 1", "Rc1 Qxc1 Bf3+ Kf1 Bxe2+"},
    {Motif::deflection, false, "WAC.236, but from d1 the queen guards e2 still",
     "1R6/p5pk/4p2p/4P3/8/3r2qP/P3R1b1/4Q1K1 b - - 0 1", "Rd1 Qxd1 Bf3+ Kf1 Bxe2+"},
    {Motif::deflection, false, "BK.21: the offer is not what the queen takes",
     "3rn2k/ppb2rpp/2ppqp2/5N2/2P1P3/1P5Q/PB3PPP/3RR1K1 w - - 0 1", "Nh6 Qxh3 Nxf7+"},

    {Motif::removing_the_guard, true, "WAC.016: the queen is driven from the bishop",
     "r4rk1/ppp2ppp/2n5/2bqp3/8/P2PB3/1PP1NPPP/R2Q1RK1 w - - 0 1", "Nc3 Qd7 Bxc5"},
    {Motif::removing_the_guard, false, "WAC.016 with a pawn that guards the bishop too",
     "r4rk1/p1p2ppp/1pn5/2bqp3/8/P2PB3/1PP1NPPP/R2Q1RK1 w - - 0 1", "Nc3 Qd7 Bxc5 bxc5"},
    {Motif::removing_the_guard, false, "WAC.065, second move: the guard is a queen, won",
     "1r1r2k1/p2nqp1p/bp1Pn1pQ/2p1p3/2P2P1N/1P5B/P6P/3R1RK1 w - - 0 2", "dxe7 Nd4 exd8=Q+"},

    {Motif::decoy, true, "Lasker-Bauer (M11): the check takes a knight",
     "r4rk1/1b2bppp/ppq1p3/2ppB2n/5P2/1P1BP3/P1PPQ1PP/R4RK1 w - - 0 15", "Bxh7+ Kxh7 Qxh5+ Kg8"},
    {Motif::decoy, false, "Magnus Smith's trap: the king has left the queen, there is no check",
     "r1bqkb1r/p3pp1p/2p2np1/4p3/2B5/2N5/PPP2PPP/R1BQK2R w KQkq - 0 9", "Bxf7+ Kxf7 Qxd8"},

    {Motif::pin, true, "Englund: pinned to its king it could only take along the line",
     "r1b1kbnr/pppp1ppp/2n5/4P3/8/2B2N2/PqP1PPPP/RN1QKB1R b KQkq - 1 6", "Bb4 Nfd2 Bxc3 Nxc3"},
    {Motif::pin, false, "WAC.068: before a queen it could take the pinning man",
     "6k1/5ppp/1q6/2b5/8/2R1pPP1/1P2Q2P/7K w - - 0 1", "Qxe3 Qb5 Qxc5"},
    {Motif::pin, true, "Rotlewi-Rubinstein (N02): the pinned queen may not take the rook",
     "6k1/5ppp/pb2p3/1p2P3/1P2bPnP/P1r5/1B4QP/R4R1K b - - 1 25", "Rh3 Rf3 Bxf3"},
    {Motif::pin, false, "the same without the bishop that pins her",
     "6k1/5ppp/pb2p3/1p2P3/1P3PnP/P1r5/1B4QP/R4R1K b - - 1 25", "Rh3 Rf3 Rxf3"},

    {Motif::skewer, true, "WAC.040: the queen may not leave the rook behind her",
     "3r1r1k/1p4pp/p4p2/8/1PQR4/6Pq/P3PP2/2R3K1 b - - 0 1", "Rc8 a4 Rxc4 Rdxc4"},
    {Motif::skewer, false, "WAC.040 with a rook that guards the one behind",
     "3r1r1k/1p4pp/p4p2/8/1PQ5/6Pq/P3PP2/2RR2K1 b - - 0 1", "Rc8 a4 Rxc4 Rxc4"},

    {Motif::discovered_attack, true, "WAC.209: the bishop takes the queen a move later",
     "r5k1/1bp3pp/p2p4/1p6/5p2/1PBP1nqP/1PP3Q1/R4R1K b - - 0 1", "Nd4 Rf2 Qxh3+ Kg1 Bxg2"},
    {Motif::discovered_attack, true, "WAC.077: the queen runs and falls on d4",
     "3r2k1/ppp2ppp/6q1/b4n2/3nQB2/2p5/P4PPP/RN3RK1 b - - 0 1", "Ng3 Qxd4 Ne2+ Kh1 Rxd4"},
    {Motif::discovered_attack, false, "WAC.077: queens are traded",
     "3r2k1/ppp2ppp/6q1/b4n2/3nQB2/2p5/P4PPP/RN3RK1 b - - 0 1", "Ng3 Qxg6 hxg6"},
    {Motif::discovered_attack, true, "Petroff, 6.Bg5: the knight takes under fire, the bishop runs",
     "r1bqk2r/ppp2ppp/2p2n2/2b3B1/4P3/3P4/PPP2PPP/RN1QKB1R b KQkq - 2 6", "Nxe4 Be3 Nf6"},
    {Motif::discovered_attack, false, "the same without a pawn to take the knight or to be taken",
     "r1bqk2r/ppp2ppp/2p2n2/2b3B1/8/8/PPP2PPP/RN1QKB1R b KQkq - 2 6", "Ne4 Be3 Nf6"},
    {Motif::discovered_attack, false, "Petroff, 4...Nf6: a discovered check",
     "rnbqkb1r/pppp1ppp/5n2/4N3/8/8/PPPPQPPP/RNB1KB1R w KQkq - 2 5", "Nc6+ Qe7 Nxe7"},

    {Motif::clearance, false, "WAC.060: the rook follows the queen along the line she went",
     "rn1qr1k1/1p2np2/2p3p1/8/1pPb4/7Q/PB1P1PP1/2KR1B1R w - - 0 1", "Qh8+ Bxh8 Rxh8#"},
    {Motif::sacrifice, false, "Legal's trap, declined: the bishop falls for the knight",
     "rn1qkbnr/ppp2p1p/3p2p1/4p3/2B1P1b1/2N2N2/PPPP1PPP/R1BQK2R w KQkq - 0 5", "Nxe5 dxe5 Qxg4"},
    {Motif::sacrifice, false, "Lazard's trap (Q10): not taken, it takes the queen",
     "rnbqkb1r/pppp1ppp/8/4P3/6n1/7P/PPPNPPP1/R1BQKBNR b KQkq - 0 4", "Ne3 Ngf3 Nxd1"},
    {Motif::sacrifice, true, "M06: taken, and nothing comes back at once",
     "1r2k1r1/pbppnp1p/1b3P2/8/Q7/B1PB1q2/P4PPP/3R2K1 w - - 0 21", "Qxd7+ Kxd7 Bf5+"},

    {Motif::fork, true, "WAC.015: the exchange prepares a fork",
     "1R6/1brk2p1/4p2p/p1P1Pp2/P7/6P1/1P4P1/2R3K1 w - - 0 1", "Rxb7 Rxb7 c6+ Kc7 cxb7+"},
    {Motif::fork, false, "WAC.046: a quiet move that is not taken prepares nothing forced",
     "r1bqr1k1/pp1nb1p1/4p2p/3p1p2/3P4/P1N1PNP1/1PQ2PP1/3RKB1R w K - 0 1", "Nb5 Nf6 Nc7 Bd7 Nxa8"},
    {Motif::discovered_check, true, "WAC.009: the check prepares another",
     "3q1rk1/p4pp1/2pb3p/3p4/6Pr/1PNQ4/P1PB1PP1/4RRK1 b - - 0 1",
     "Bh2+ Kh1 Bg3+ Kg1 Rh1+ Kxh1 Qh4+ Kg1 Qh2#"},
    {Motif::discovered_check, false, "WAC.214: after a sacrifice it is only how it goes on",
     "r4b1r/pp1n2k1/1qp1p2p/3pP1pQ/1P6/2BP2N1/P4PPP/R4RK1 w - - 0 1",
     "Nf5+ exf5 e6+ Kh7 Qf7+ Bg7 Qxg7#"},
};

std::set<Motif> motifs(const char* fen, const char* line) {
  const rules::Position p = support::position(fen);
  const auto moves = support::line(p, line);
  const auto found = study::motifs_of(p, moves);
  CHECK(std::is_sorted(found.begin(), found.end()));
  return {found.begin(), found.end()};
}

}  // namespace

TEST_CASE("every motif is seen on its example") {
  for (const Case& c : cases) {
    INFO(study::name_of(c.motif) << ": " << c.source << " " << c.line);
    CHECK(motifs(c.fen, c.line).count(c.motif) == 1);
  }
}

TEST_CASE("a motif holds on this side of its edge and not on the other") {
  for (const Edge& e : edges) {
    INFO(study::name_of(e.motif) << ": " << e.what << ": " << e.line);
    CHECK(motifs(e.fen, e.line).count(e.motif) == (e.holds ? 1 : 0));
  }
}

TEST_CASE("an unguarded piece that is taken was hanging") {
  CHECK(motifs("4k3/8/8/3r4/8/8/8/3RK3 w - - 0 1", "Rxd5").count(Motif::hanging_piece) == 1);
  CHECK(motifs("4k3/2p5/3r4/8/8/8/8/3RK3 w - - 0 1", "Rxd6 cxd6").count(Motif::hanging_piece) == 0);
}

TEST_CASE("what needs the move before: miscount and in-between move") {
  // Queen's Gambit, 6.Nxd5 Nxd5 (S10): the knight took a guarded pawn.
  const rules::Position before =
      support::position("r1bqkb1r/pppn1ppp/5n2/3p2B1/3P4/2N5/PP2PPPP/R2QKBNR w KQkq - 0 6");
  const rules::Move took = support::move(before, "Nxd5");
  const rules::Position after = before.after(took);
  auto found = study::motifs_of(after, support::line(after, "Nxd5"), {&before, took});
  CHECK(std::count(found.begin(), found.end(), Motif::miscount) == 1);
  found = study::motifs_of(after, support::line(after, "Nxd5"));
  CHECK(std::count(found.begin(), found.end(), Motif::miscount) == 0);

  // Made: instead of taking the bishop at once, White checks first and then takes it.
  const rules::Position start = support::position("4k3/8/8/2b5/3N4/4P3/8/3QK3 b - - 0 1");
  const rules::Move taken = support::move(start, "Bxd4");
  const rules::Position now = start.after(taken);
  found = study::motifs_of(now, support::line(now, "Qa4+ Kd8 Qxd4+"), {&start, taken});
  CHECK(std::count(found.begin(), found.end(), Motif::in_between_move) == 1);
}

TEST_CASE("a motif is not named when the line does not bear it out") {
  // A knight that attacks two men but never takes one of them.
  CHECK(motifs("r3k3/8/8/3N4/8/8/5PPP/6K1 w q - 0 1", "Nc7+ Kd7 Nd5").count(Motif::fork) == 0);
  CHECK(motifs("r3k3/8/8/3N4/8/8/5PPP/6K1 w q - 0 1", "Nc7+ Kd7 Nxa8").count(Motif::fork) == 1);
  // A mate on the edge of the board that the own men do not bring about (two rooks).
  CHECK(motifs("6k1/R7/8/8/8/8/8/1R4K1 w - - 0 1", "Rb8#").count(Motif::back_rank) == 0);
  // The opera game's finish (M01): a sacrifice, but no fork, pin, skewer or back rank.
  const auto opera =
      motifs("4kb1r/p2n1ppp/4q3/4p1B1/4P3/1Q6/PPP2PPP/2KR4 w k - 0 16", "Qb8+ Nxb8 Rd8#");
  CHECK(opera.count(Motif::sacrifice) == 1);
  for (const Motif m : {Motif::fork, Motif::pin, Motif::skewer, Motif::back_rank,
                        Motif::smothered_mate, Motif::decoy, Motif::overloaded}) {
    INFO(study::name_of(m));
    CHECK(opera.count(m) == 0);
  }
  // Illescas-Polgar, Linares 1994 (shared/data): the checks end with 34. Kg3.
  CHECK(motifs("2q3k1/1R1pnrpp/4p3/4P3/3P2Q1/PR6/5P1P/6K1 b - - 6 32", "Qc1+ Kg2 Qc6+ Kg1 Qc1+")
            .count(Motif::perpetual_check) == 0);
  // Quiet moves of the opening have none at all.
  CHECK(motifs("rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", "e4 e5 Nf3").empty());
}

TEST_CASE("every motif has a name of its own") {
  std::set<std::string_view> seen;
  for (int m = 0; m < study::motif_count; ++m) {
    const auto name = study::name_of(static_cast<Motif>(m));
    CHECK_FALSE(name.empty());
    CHECK(seen.insert(name).second);
  }
}
