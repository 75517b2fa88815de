#include "kairos/habits/decisions.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

using namespace kairos;

namespace {

// A study in which every move was as good as any other, to be changed by the test.
study::Study level_study(const std::string& fen, const std::vector<std::string>& moves) {
  study::Study study;
  study.start = fen.empty() ? rules::Position::start() : rules::parse_fen(fen).value();
  rules::Position p = study.start;
  const auto add_note = [&](rules::Move played) {
    study::Note& note = study.notes.emplace_back();
    rules::MoveList legal;
    rules::legal_moves(p, legal);
    if (played) note.lines.push_back({.score = 0, .moves = {played}});
    for (const rules::Move m : legal) {
      if (m != played && note.lines.size() < 2) note.lines.push_back({.score = 0, .moves = {m}});
    }
  };
  for (const std::string& san : moves) {
    const rules::Move move = rules::parse_san(p, san).value();
    add_note(move);
    study.moves.push_back(move);
    p.play(move);
  }
  add_note({});
  return study;
}

rules::Move san(const rules::Position& p, const std::string& text) {
  return rules::parse_san(p, text).value();
}

struct Found {
  habits::Topics topics;
  std::vector<habits::Decision> decisions;

  [[nodiscard]] bool has(std::size_t decision, const std::string& words) const {
    const auto& ids = decisions.at(decision).topics;
    return std::any_of(ids.begin(), ids.end(),
                       [&](habits::TopicId id) { return topics.all()[id].words == words; });
  }
};

Found decisions_of(const study::Study& study, rules::Color side) {
  Found found;
  habits::add_decisions(study, side, 7, {}, found.topics, found.decisions);
  return found;
}

// The only decision of White in a game of one move from `fen`.
Found one_decision(const std::string& fen, const std::string& move) {
  return decisions_of(level_study(fen, {move}), rules::white);
}

}  // namespace

TEST_CASE("decisions are moves with a choice in positions that are not decided") {
  study::Study study = level_study("", {"e4", "e5", "Nf3", "Nc6", "Bb5", "a6"});
  REQUIRE(decisions_of(study, rules::white).decisions.size() == 3);
  REQUIRE(decisions_of(study, rules::black).decisions.size() == 3);
  study.notes[2].lines.pop_back();            // one legal move
  study.notes[4].lines.front().score = 2000;  // won
  const Found found = decisions_of(study, rules::white);
  REQUIRE(found.decisions.size() == 1);
  CHECK(found.decisions[0].place == habits::DecisionPlace{7, 0});
}

TEST_CASE("an error costs a tenth of the expectation by the survey, whoever made it") {
  study::Study study = level_study("", {"e4", "e5", "Nf3", "Nc6"});
  study.notes[2].played_score = -30;  // 0.07
  study.notes[3].played_score = -60;  // 0.14
  CHECK_FALSE(decisions_of(study, rules::white).decisions[1].error);
  const Found black = decisions_of(study, rules::black);
  CHECK(black.decisions[1].error);
  CHECK(black.decisions[1].cost == Approx(0.14).margin(0.01));
  CHECK_FALSE(black.decisions[1].verified);
  study::Moment swing;
  swing.ply = 3;
  swing.played_score = -200;
  swing.reasons.emplace_back().motif = study::Motif::fork;
  study.moments.push_back(swing);
  const Found verified = decisions_of(study, rules::black);
  CHECK(verified.decisions[1].verified);
  CHECK(verified.decisions[1].cost == Approx(swing.cost()));
  CHECK(verified.has(1, "allowing the motif: fork"));
}

// Endings by their pieces: common practice.
TEST_CASE("the phase goes by the pieces on the board") {
  CHECK(one_decision("", "e4").has(0, "in the opening"));
  const std::string late = "r1bq1rk1/pp2bppp/2n1pn2/3p4/3P4/2NBPN2/PP3PPP/R1BQ1RK1 w - - 0 14";
  CHECK(one_decision(late, "a3").has(0, "in the middlegame"));
  CHECK(one_decision(late, "a3").has(0, "without having castled"));
  CHECK(one_decision("8/5pk1/6p1/8/8/6P1/5PK1/8 w - - 0 50", "f4").has(0, "in pawn endings"));
  CHECK(one_decision("8/r4pk1/6p1/8/8/6P1/R4PK1/8 w - - 0 50", "f4").has(0, "in rook endings"));
  CHECK(one_decision("8/b4pk1/6p1/8/8/6P1/N4PK1/8 w - - 0 50", "f4")
            .has(0, "in endings of minor pieces"));
  CHECK(one_decision("8/q4pk1/6p1/8/8/6P1/Q4PK1/8 w - - 0 50", "f4").has(0, "in queen endings"));
  const Found mixed = one_decision("8/rn3pk1/6p1/8/8/6P1/RN3PK1/8 w - - 0 50", "f4");
  CHECK(mixed.has(0, "in endings of mixed pieces"));
  CHECK(mixed.has(0, "in endings"));
  CHECK(mixed.has(0, "when moving a pawn"));
  CHECK(mixed.has(0, "in moves 41 to 60"));
  CHECK(mixed.has(0, "with White"));
}

TEST_CASE("castling, the move before, the opening and the choice are noticed") {
  study::Study study =
      level_study("", {"e4", "e5", "Nf3", "Nc6", "Bb5", "a6", "O-O", "Nf6", "Re1"});
  study.notes[1].lines.erase(study.notes[1].lines.begin());  // 1... e5 was not expected
  study.notes[4].lines[1].score = -60;
  Found found = decisions_of(study, rules::white);
  CHECK(found.has(1, "after an unexpected move"));
  CHECK(found.has(2, "after an expected move"));
  CHECK(found.has(2, "where only one move is good"));
  CHECK(found.has(1, "where several moves are good"));
  CHECK(found.has(3, "when castling"));
  CHECK(found.has(0, "in games that begin 1. e4 e5"));
  study.facts.eco = "C70";
  CHECK(decisions_of(study, rules::white).has(0, "in openings of ECO C70"));
}

TEST_CASE("the clock tells of little time, long thinks and quick moves") {
  study::Study study = level_study("", {"e4", "e5", "Nf3", "Nc6", "Bb5", "a6", "Ba4", "Nf6"});
  const std::vector<int> left = {6000, 6000, 5990, 5000, 590, 4000, 100, 3900};
  for (std::size_t i = 0; i < left.size(); ++i) study.notes[i].clock_seconds = left[i];
  const Found found = decisions_of(study, rules::white);
  CHECK(found.has(1, "when moving at once"));
  CHECK(found.has(1, "with time left"));
  CHECK(found.has(2, "after a long think"));
  CHECK(found.has(2, "with time left"));
  CHECK(found.has(3, "with less than a tenth of the time left"));
  study.notes[2].clock_seconds = -1;
  CHECK_FALSE(decisions_of(study, rules::white).has(2, "with time left"));
}

TEST_CASE("what was overlooked: a threat, a chance, or what the move itself allowed") {
  const std::string threat = "3r2k1/5ppp/8/8/3Q4/8/5PPP/6K1 w - - 0 30";
  const auto flaws = [](const std::string& fen, const std::string& move, const std::string& reply) {
    study::Study study = level_study(fen, {move});
    study.notes[0].played_score = -500;
    const rules::Position next = study.start.after(study.moves[0]);
    study.notes[1].lines = {{.score = 500, .moves = {san(next, reply)}}};
    return decisions_of(study, rules::white);
  };
  CHECK(flaws(threat, "g3", "Rxd4").has(0, "overlooking a threat that was already there"));
  CHECK(flaws(threat, "g3", "Rxd4").has(0, "losing a game that still held"));
  CHECK(flaws(threat, "Qd6", "Rxd6").has(0, "overlooking what the move itself allowed"));
  // The last move gave what this one did not take.
  study::Study study = level_study("3r2k1/5ppp/8/8/3Q4/8/5PPP/6K1 b - - 0 30", {"f6", "Qc3"});
  study.notes[0].lines = {{.score = 100, .moves = {san(study.start, "Rxd4")}},
                          {.score = 0, .moves = {study.moves[0]}}};
  study.notes[1].lines[0].score = 300;
  const Found missed = decisions_of(study, rules::white);
  CHECK(missed.has(0, "missing the chance that it gave"));
  CHECK(missed.has(0, "after an error of the opponent"));
  CHECK(missed.has(0, "letting it slip"));
  CHECK(missed.has(0, "with an advantage"));
}
