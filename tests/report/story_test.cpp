// The story of a game: at most five sentences, from facts alone.
#include <catch2/catch.hpp>

#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"

#include "support/games.hpp"

using namespace kairos;
using study::Kind;
using study::Moment;

namespace {

constexpr search::Score won = 400, better = 120, level = 0, worse = -150, lost = -500;

constexpr const char* opening =
    "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Na5 Bc2 c5";

// White's scores before each of its moves; the last one goes on.
study::Study game(const std::string& result, const std::vector<search::Score>& scores) {
  study::Study study;
  study.facts.result = result;
  study.moves = support::line(study.start, opening);
  rules::Position p = study.start;
  for (std::size_t i = 0; i <= study.moves.size(); ++i) {
    const search::Score white = scores[std::min(i / 2, scores.size() - 1)];
    const rules::Move move = i < study.moves.size() ? study.moves[i] : support::move(p, "d4");
    study.notes.push_back({.lines = {{.score = i % 2 == 0 ? white : -white, .moves = {move}}},
                           .played_score = 0,
                           .depth = 1,
                           .nodes = 1,
                           .clock_seconds = -1});
    p.play(move);
  }
  return study;
}

// From the side to move; `best` in SAN.
void add(study::Study& study, Kind kind, int ply, const char* best, search::Score from,
         search::Score to) {
  Moment& m = study.moments.emplace_back();
  const auto at = static_cast<std::size_t>(ply);
  m.kind = kind;
  m.ply = ply;
  m.position = study::position_after(study, at);
  if (at < study.moves.size()) m.played = study.moves[at];
  m.best = support::move(m.position, best);
  m.line = {m.best};
  m.best_score = from;
  m.played_score = to;
  m.second_score = to;
  if (at + 1 < study.moves.size()) m.refutation = {study.moves[at + 1]};
}

std::string story(const study::Study& study, const std::string& loss = "") {
  return base::join(report::story_of(study, report::turning_points(study), loss), " ");
}

}  // namespace

TEST_CASE("a game without a moment is told by how it stood and how it ended") {
  CHECK(story(game("1/2-1/2", {0})) == "Level throughout. It was drawn after 10... c5.");
  CHECK(story(game("1-0", {0, 0, 0, 0, 60, 90, 150, 200, 300, 400}), "Some figures.") ==
        "Level until move 4; by move 11 White is winning. Some figures. White won after 10... c5.");
  CHECK(story(game("*", {0, 0, 0, 120})) ==
        "Level until move 3; by move 11 White is better. The score ends with 10... c5; White is "
        "better.");
  CHECK(story(game("1/2-1/2", {0, 0, 0, 200, 200, 0})) ==
        "Neither side kept an edge for long. It was drawn after 10... c5.");
}

TEST_CASE("one error is told with what was right instead") {
  study::Study study = game("1-0", {0, 0, 0, 0, 0, 0, 0, won});
  add(study, Kind::swing, 13, "O-O", level, lost);
  CHECK(story(study) ==
        "Level until move 7. 7... d6 loses to 8. c3. Better was 7... O-O. White won after 10... "
        "c5.");
}

TEST_CASE("of a won game the loser's last error is the turn, and what came before is told first") {
  study::Study study = game("1-0", {0, 0, 0, 0, 0, 0, 0, won});
  add(study, Kind::swing, 8, "d3", better, lost);
  add(study, Kind::swing, 9, "d6", won, level);
  add(study, Kind::swing, 13, "O-O", level, lost);
  CHECK(story(study) ==
        "Level until move 4; by move 5 White is better. First both sides let chances go by, with "
        "5. O-O and 5... Be7. Then 7... d6 loses to 8. c3. Better was 7... O-O. White won after "
        "10... c5.");
}

TEST_CASE("chances after the turn are told in a sentence") {
  study::Study study = game("1-0", {0, 0, 0, 0, 0, 0, 0, won});
  add(study, Kind::swing, 9, "d6", level, lost);
  add(study, Kind::swing, 12, "d3", won, level);
  CHECK(story(study) ==
        "Level until move 5. 5... Be7 loses to 6. Re1. Better was 5... d6. Later 7. Bb3 lets the "
        "win slip: after 7... d6 the position is level. White won after 10... c5.");
}

TEST_CASE("an early end is the end of the story") {
  study::Study study = game("1/2-1/2", {0, 0, 0, 0, 0, 0, 0, 0, 0, won, won});
  add(study, Kind::ended_early, 20, "d4", won, level);
  CHECK(story(study) ==
        "Level until move 9; by move 11 White is winning. A draw was agreed, though White is "
        "winning after 11. d4.");
}

TEST_CASE("without an error the hardest find is told") {
  study::Study study = game("1/2-1/2", {0});
  add(study, Kind::only_move, 12, "Bb3", level, lost);
  study.moments.back().played_score = level;
  study.moments.back().found = true;
  CHECK(story(study) ==
        "Level throughout. Only 7. Bb3 holds. White found it. It was drawn after 10... c5.");
}

TEST_CASE("mate, stalemate and repetition end a game by the Laws") {
  study::Study mate;
  mate.facts.result = "0-1";
  mate.moves = support::line(mate.start, "f3 e5 g4 Qh4#");
  mate.notes.resize(5);
  CHECK(story(mate).ends_with("Black mated with 2... Qh4#."));
  study::Study stalemate;
  stalemate.facts.result = "1/2-1/2";
  stalemate.start = support::position("7k/8/8/6K1/8/8/5Q2/8 w - - 0 1");
  stalemate.moves = support::line(stalemate.start, "Qf7");
  stalemate.notes.resize(2);
  CHECK(story(stalemate).ends_with("It ended in stalemate after 1. Qf7."));
  study::Study again;
  again.facts.result = "1/2-1/2";
  again.moves = support::line(again.start, "Nf3 Nf6 Ng1 Ng8 Nf3 Nf6 Ng1 Ng8");
  again.notes.resize(9);
  CHECK(story(again).ends_with("It was drawn by repetition after 4... Ng8."));
}

TEST_CASE("a story has at most five sentences, whatever a game holds") {
  study::Study study = game("1-0", {0, 0, 0, 0, 0, 0, 0, won});
  for (const auto& [ply, best] : {std::pair{4, "Bc4"},
                                  {5, "Nf6"},
                                  {8, "d3"},
                                  {9, "d6"},
                                  {12, "d3"},
                                  {13, "O-O"},
                                  {16, "d3"},
                                  {17, "Bb7"}}) {
    add(study, Kind::swing, ply, best, better, worse);
  }
  for (const char* const result : {"1-0", "0-1", "1/2-1/2", "*"}) {
    study.facts.result = result;
    CHECK(report::story_of(study, report::turning_points(study), "").size() <= 5);
  }
}
