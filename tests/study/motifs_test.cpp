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
