// The reasons of moments on published positions (the fact sheet's section 6 has their sources): of
// whom they speak, of what kind they are, and the figures.
#include "reasons.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "kairos/study/examine.hpp"

#include "support/games.hpp"
#include "support/sheets.hpp"

using namespace kairos;
using study::Kind;
using study::Moment;
using study::ReasonKind;
using study::Role;

namespace {

struct Case {
  const char* name;  // with its source
  const char* fen;
  const char* moves;  // of the game; the first moment of the kind is looked at
  std::uint64_t nodes;
  Kind kind;
  Role role;
  ReasonKind reason;
  const char* move;
  int amount;  // moves to mate, or centipawns
  const char* motif = "";
};

std::optional<Moment> moment_of(const Case& c) {
  study::Study study;
  study.start = support::position(c.fen);
  study.moves = support::line(study.start, c.moves);
  study.notes.resize(study.moves.size() + 1);
  study::Settings settings;
  settings.effort = {c.nodes / 10, c.nodes, 2 * c.nodes};
  search::Searcher searcher;
  for (int ply = 0; ply < static_cast<int>(study.moves.size()); ++ply) {
    const auto verified =
        study::verify(support::sheet_of(study), study, {{ply}, 1.0}, settings, searcher);
    for (const Moment& m : verified.front().moments) {
      if (m.kind == c.kind) return m;
    }
  }
  return std::nullopt;
}

const study::Reason* find(const Moment& m, Role role, ReasonKind kind) {
  const auto found = std::find_if(m.reasons.begin(), m.reasons.end(), [=](const study::Reason& r) {
    return r.role == role && r.kind == kind;
  });
  return found == m.reasons.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("what is proved of a move stands in the moment, with whose move it is", "[slow]") {
  const Case cases[] = {
      {"Reti-Tartakower, Vienna 1910: the error is mated",
       "rnb1kb1r/pp3ppp/2p2n2/4q3/4N3/3Q4/PPPB1PPP/2KR1BNR b kq - 1 8", "Nxe4", 1'500'000,
       Kind::swing, Role::reply, ReasonKind::mates, "Qd8+", 3},
      {"Scholar's mate (common practice)",
       "r1bqkbnr/pppp1ppp/2n5/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR b KQkq - 3 3", "Nf6", 50'000,
       Kind::swing, Role::reply, ReasonKind::mates, "Qxf7#", 1},
      {"Lazard's trap: the error loses the queen for a knight",
       "rnbqkb1r/pppp1ppp/8/4P3/6n1/8/PPPNPPPP/R1BQKBNR w KQkq - 1 4", "h3", 100'000, Kind::swing,
       Role::reply, ReasonKind::wins_material, "Ne3", 600},
      {"Lazard's trap: the quiet move wins it",
       "rnbqkb1r/pppp1ppp/8/4P3/6n1/7P/PPPNPPP1/R1BQKBNR b KQkq - 0 4", "Ne3", 100'000,
       Kind::quiet_win, Role::best, ReasonKind::wins_material, "Ne3", 600},
      {"Queen's Gambit Declined, 6.Nxd5 left alone (opening theory, from memory)",
       "r1bqkb1r/pppn1ppp/5n2/3p2B1/3P4/2N5/PP2PPPP/R2QKBNR w KQkq - 0 6", "e3", 300'000,
       Kind::trap, Role::reply, ReasonKind::wins_material, "Nxd5", 200},
      {"game 2 of samples/club_open.pgn: elsewhere the knight leaves a bishop's guard",
       "4q1k1/5p2/2b2p1p/3n4/3QB3/6P1/p4P1P/R5K1 b - - 1 33", "Nc3", 400'000, Kind::only_move,
       Role::second_reply, ReasonKind::soon_wins, "Bxc6",
       100},  // two are proved, best play wins one
  };
  for (const Case& c : cases) {
    INFO(c.name);
    const auto m = moment_of(c);
    REQUIRE(m);
    const auto told = find(*m, c.role, c.reason);
    REQUIRE(told != nullptr);
    CHECK(rules::to_san(study::position_of(*m, c.role), told->move) == c.move);
    CHECK(told->line.front() == told->move);
    CHECK((c.reason == ReasonKind::mates ? told->mate_moves : told->gain) == c.amount);
  }
}

TEST_CASE("a plain recapture is no reason") {
  const Case c = {"game 3 of samples/club_open.pgn: Black can take back with the bishop",
                  "rnbq1rk1/p1p1bpp1/1p2pn1p/3p4/2PP3B/2N1PN2/PP3PPP/R2QKB1R w KQ - 0 8",
                  "Bxf6 gxf6",
                  50'000,
                  Kind::swing,
                  Role::best,
                  ReasonKind::wins_back,
                  "Bxf6",
                  300};
  const auto m = moment_of(c);
  REQUIRE(m);
  for (const ReasonKind kind :
       {ReasonKind::wins_back, ReasonKind::wins_material, ReasonKind::soon_wins}) {
    CHECK(find(*m, Role::best, kind) == nullptr);
  }
}

TEST_CASE("a swing and a trap have the motif of the reply, other moments that of the best move",
          "[slow]") {
  const Case cases[] = {
      {"Combe-Hasenfuss, Folkestone 1933 (from memory)",
       "rnbqkbnr/pp1p1ppp/8/4p3/2Pp4/5N2/PP2PPPP/RNBQKB1R w KQkq - 0 4", "Nxe5", 200'000,
       Kind::swing, Role::reply, ReasonKind::motif, "Qa5+", 0, "fork"},
      {"Saavedra 1895, move 6", "8/2P5/8/8/3r4/8/2K5/k7 w - - 9 6", "c8=Q", 200'000, Kind::swing,
       Role::reply, ReasonKind::motif, "Rc4+", 0, "stalemate"},
      {"Bernstein-Capablanca, Moscow 1914; D. Mackenzie 2019",
       "3r2k1/p4ppp/1q6/8/8/2R1P3/P3QPPP/6K1 b - - 0 29", "Qb2", 500'000, Kind::quiet_win,
       Role::best, ReasonKind::motif, "Qb2", 0, "fork"},
  };
  for (const Case& c : cases) {
    INFO(c.name);
    const auto m = moment_of(c);
    REQUIRE(m);
    const auto motif = study::motif_of(*m);
    CHECK((motif ? study::name_of(*motif) : "") == c.motif);
    const auto told = find(*m, c.role, ReasonKind::motif);
    REQUIRE(told != nullptr);
    CHECK(rules::to_san(study::position_of(*m, c.role), told->move) == c.move);
  }
}

namespace {

// The reasons of an only move, from its parts.
Moment only_move(const char* fen, const char* line, search::Score score, const char* second,
                 const char* refutation, search::Score second_score) {
  Moment m;
  m.kind = Kind::only_move;
  m.position = support::position(fen);
  m.line = support::line(m.position, line);
  m.best = m.played = m.line.front();
  m.best_score = m.played_score = score;
  m.second = support::move(m.position, second);
  m.second_refutation = support::line(m.position.after(m.second), refutation);
  m.second_score = second_score;
  study::Evidence evidence;
  evidence.position = m.position;
  study::Settings settings;
  settings.effort = study::effort_of(study::EffortName::light);
  study::give_reasons(evidence, settings, m);
  return m;
}

bool has(const Moment& m, Role role, ReasonKind kind) {
  return find(m, role, kind) != nullptr;
}

}  // namespace

TEST_CASE("a reply that answers the best move just as well refutes nothing") {
  // Issue 13, class 3: the rook falls to the same move after both (made for the test).
  constexpr const char* fen = "6k1/8/8/3q4/8/8/8/1K5R w - - 0 1";
  const Moment same = only_move(fen, "Kc2 Qxh1", -900, "Kc1", "Qxh1+ Kd2", -900);
  CHECK_FALSE(has(same, Role::second_reply, ReasonKind::wins_material));
  CHECK_FALSE(has(same, Role::second_reply, ReasonKind::soon_wins));
  const Moment other = only_move(fen, "Rg1+ Kf7", -400, "Kc1", "Qxh1+ Kd2", -900);
  CHECK(has(other, Role::second_reply, ReasonKind::wins_material));
}

TEST_CASE("a line that ends drawn wins nothing") {
  // Issue 13, class 1; Maroczy-Marshall, New York 1924, move 44.
  const Moment m =
      only_move("5rk1/p5p1/1p5p/3PQ3/2P5/1P3qP1/P3R2P/6K1 w - - 3 44", "h4 Qf1+ Kh2 Qd1 Qe3 Rf6",
                310, "h3", "Qf1+ Kh2 Rf2+ Rxf2 Qxf2+ Kh1 Qf1+ Kh2 Qf2+", 0);
  CHECK(has(m, Role::second_reply, ReasonKind::draws));
  CHECK_FALSE(has(m, Role::second_reply, ReasonKind::wins_material));
  CHECK_FALSE(has(m, Role::second_reply, ReasonKind::soon_wins));
}

TEST_CASE("a man is named where the line takes it, and a guard where the best move keeps it") {
  const auto wins_on = [](const Moment& m, Role role, rules::Square square) {
    return std::ranges::any_of(m.reasons, [&](const study::Reason& r) {
      const bool wins = r.kind == ReasonKind::wins_material || r.kind == ReasonKind::soon_wins;
      return wins && r.role == role && std::ranges::count(r.squares, square) > 0;
    });
  };
  // Tartakower - Bogoljubow, New York 1924: the pawn on c4 does not fall, and 53. Ke3 leaves e1
  // without a guard as well.
  const Moment rooks = only_move("8/8/8/2kP1p2/2P4p/6pP/3RK1P1/6r1 w - - 9 53",
                                 "Ke3 Kd6 c5+ Kd7 Ra2 Kc8 Kf4 Rf1+ Ke5 Rf2 Ra7 Re2+", 485, "Kd3",
                                 "Re1 Ra2 Rd1+ Ke3 Rf1 Rd2 f4+ Ke4 Rf2 Rd1 Rxg2 d6", 81);
  CHECK_FALSE(wins_on(rooks, Role::second_reply, rules::c4));
  for (const study::Reason& r : rooks.reasons) {
    CHECK_FALSE((r.role == Role::second_reply && r.means == study::Means::square_unguarded));
  }
  // Adams - Kasimdzhanov, Tripoli 2004, seventh game of the final: b4 could be had, but best play
  // gives the exchange.
  const Moment knight = only_move("2rq1rk1/3nppbp/3p2p1/3P4/BpnNPP2/8/1P3P1P/R1BQR1K1 w - - 1 20",
                                  "Nc6 Rxc6 dxc6 Nc5 e5 Qb6 b3 Na5 Qd5 Nxa4 Rxa4 Nxc6", 145, "e5",
                                  "Nb8 e6 Qb6 exf7+ Rxf7 Qg4 Qb7 Nc6 Nxc6 dxc6 Rxc6 Bxc6", 83);
  CHECK_FALSE(wins_on(knight, Role::best, rules::b4));
}

TEST_CASE("a man that the line gives up was not saved") {
  // Kasparov-Anand, Linares (open game file): d4 falls to 29... exd4.
  const Moment check = only_move("1rb1r1k1/2q2pb1/pp1p4/4pPPQ/Pn1Bn3/1NN4R/1PP4P/R5K1 w - - 0 27",
                                 "Qh7+ Kf8 Nxe4 Bxf5 Qxf5 exd4 Nf6 Qxc2 Nxd4 Qd2 Nf3", 304, "Nxe4",
                                 "Bxf5 Nf6+ Kf8 Bc3 Nxc2", 26);
  CHECK(find(check, Role::best, ReasonKind::soon_wins) != nullptr);
  CHECK(find(check, Role::best, ReasonKind::prevents) == nullptr);
}

TEST_CASE("a rook behind its own passed pawn is told before the pawn's way") {
  // Wang Yue-Gashimov, FIDE Grand Prix 2008 (open game file), move 31.
  const Moment rook = only_move("8/5pp1/5k1p/3p4/P7/3r1PK1/2R3PP/8 w - - 0 31",
                                "Ra2 Rc3 a5 Rc7 Kf2 Ra7 a6 Ke5 Ke3 d4+ Kd3 Kd5 Ra5+", 199, "Rc6+",
                                "Ke5 Rc7 Ke6 Rc6+ Kd7 Ra6 d4", 0);
  CHECK(find(rook, Role::best, ReasonKind::behind_pawn) != nullptr);
  CHECK(find(rook, Role::best, ReasonKind::pawn_runs) == nullptr);
}

TEST_CASE("a capture that mates refutes, though it could be made after the best move too") {
  // Made for the test: the rook falls to either move; without a way out for the king it is mate.
  const Moment luft = only_move("4r1k1/5ppp/8/8/8/8/P4PPP/4R1K1 w - - 0 1", "h3 Rxe1+ Kh2", -500,
                                "a3", "Rxe1#", -search::mate_in_plies(2));
  CHECK(find(luft, Role::second_reply, ReasonKind::mates) != nullptr);
}

TEST_CASE("where the best move takes a piece the reply to another saves it") {
  // Made for the test: the knight could be taken; after h3 it goes, or something else is played.
  constexpr const char* fen = "6k1/5p1p/6p1/3n4/2P5/8/5PPP/3R2K1 w - - 0 1";
  const Moment saved = only_move(fen, "cxd5 Kf8 Kf1", 500, "h3", "Nf6 Rd6 Kg7 Kf1 h5", 50);
  CHECK(find(saved, Role::second_reply, ReasonKind::evades) != nullptr);
  const Moment other = only_move(fen, "cxd5 Kf8 Kf1", 500, "h3", "Kf8 Rd4 Ke7", 300);
  CHECK(find(other, Role::second_reply, ReasonKind::evades) == nullptr);
}
