// The words of what no single move lost: slides, and the figures of a game without a turn.
#include <catch2/catch.hpp>

#include "kairos/report/words.hpp"

#include "support/games.hpp"
#include "support/reasons.hpp"

using namespace kairos;
using study::Kind;
using study::Moment;

namespace {

constexpr search::Score level = 0, worse = -150, lost = -500;

}  // namespace

namespace {

// 1. e4 e5 2. Nf3 Nc6, White's scores before each of its moves and at the end.
study::Study short_game(const std::string& result, std::vector<search::Score> scores) {
  study::Study study;
  study.facts.result = result;
  study.moves = support::line(study.start, "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6");
  rules::Position p = study.start;
  for (std::size_t i = 0; i <= study.moves.size(); ++i) {
    study::Note& note = study.notes.emplace_back();
    if (i == study.moves.size()) break;
    const search::Score white = scores[i / 2];
    note.lines.push_back({.score = i % 2 == 0 ? white : -white, .moves = {study.moves[i]}});
    p.play(study.moves[i]);
  }
  return study;
}

}  // namespace

TEST_CASE("a slide is told with all its moves, where it led, and the costliest") {
  const study::Study study = short_game("0-1", {0, 0, 0, 0});
  Moment m;
  m.kind = Kind::slide;
  m.ply = 2;
  m.position = study::position_after(study, 2);
  m.played = study.moves[2];
  m.best = support::move(m.position, "Nc3");
  m.best_score = level;
  m.played_score = worse;
  for (const std::size_t ply : {std::size_t{2}, std::size_t{4}, std::size_t{6}}) {
    m.steps.push_back({static_cast<int>(ply), study::position_after(study, ply), study.moves[ply],
                       level, ply == 6 ? lost : worse});
  }
  CHECK(report::sentence_of(study, m) ==
        "White slides from level to lost with 2. Nf3, 3. Bb5 and 4. Ba4. The costliest of them is "
        "2. Nf3. Better was 2. Nc3.");
  CHECK(report::change_text(report::alone(m)) == "White: level, 50 % -> lost, 1 %");
  // The costliest with its reason, where there is one.
  m.refutation = support::line(m.position.after(m.played), "Nf6");
  study::Reason& reason = m.reasons.emplace_back(support::material("p"));
  reason.role = study::Role::reply;
  CHECK(report::sentence_of(study, m) ==
        "White slides from level to lost with 2. Nf3, 3. Bb5 and 4. Ba4. The costliest of them is "
        "2. Nf3: 2... Nf6 wins a pawn. Better was 2. Nc3.");
  // Within one standing.
  const auto words_of = [&](search::Score first, search::Score last) {
    m.best_score = m.steps.front().best_score = first;
    m.played_score = m.steps.back().played_score = last;
    const std::string told = report::sentence_of(study, m);
    return told.substr(0, told.find(" with "));
  };
  m.steps.resize(5, m.steps.front());
  CHECK(report::sentence_of(study, m).find("4. Ba4, 2. Nf3 and more.") != std::string::npos);
  CHECK(words_of(15, -15) == "White gives ground");
  CHECK(words_of(130, 80) == "White lets an advantage shrink");
  CHECK(words_of(-80, -130) == "White makes a bad position worse");
}

TEST_CASE("the figures of a lost game are told only where nothing says where it was lost") {
  study::Study study = short_game("0-1", {0, -60, -200, -500});
  CHECK(report::loss_words(study) ==
        "No single move decided this game: White's expectation was 1 % at move 4.");
  study.start = support::position("rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 9");
  CHECK(report::loss_words(study) ==
        "No single move decided this game: White's expectation was 36 % at move 10, 1 % at move "
        "12.");
  study.facts.result = "1/2-1/2";
  CHECK(report::loss_words(study).empty());
  study.facts.result = "0-1";
  Moment m;
  m.kind = Kind::swing;
  m.position = study.start;
  study.moments = {m};
  CHECK(report::loss_words(study).empty());
}
