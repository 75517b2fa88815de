// How likely players err in a position: what the chances rest on, and what they do not.
#include "error_chance.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "kairos/study/examine.hpp"
#include "kairos/study/expectation.hpp"

#include "support/games.hpp"

using namespace kairos;
using study::ErrorChances;
using study::Note;
using study::Scoresheet;

namespace {

Scoresheet sheet(std::string_view fen, std::string_view moves, pgn::GameResult result) {
  return study::scoresheet_of(support::game(fen, moves, result));
}

constexpr study::Effort effort{30'000, 0, 0};

// A note with these two moves and scores.
Note note_of(const rules::Position& position, const char* best, search::Score score,
             const char* second, search::Score second_score) {
  Note note;
  note.lines = {{score, support::line(position, best)},
                {second_score, support::line(position, second)}};
  return note;
}

}  // namespace

TEST_CASE("the chance of an error does not depend on the move that was played") {
  const char* fen = "r1bqkbnr/pppp1ppp/2n5/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR b KQkq - 3 3";
  const Scoresheet one = sheet(fen, "g6 Qf3 Nf6", pgn::GameResult::unknown);
  const Scoresheet other = sheet(fen, "Nf6 Qxf7#", pgn::GameResult::white_wins);
  const Note note = note_of(one.positions[0], "g6", 40, "Qe7", 20);
  const ErrorChances chances = study::error_chances_at(one, 0, note, effort);
  CHECK(chances == study::error_chances_at(other, 0, note, effort));
  // Common practice: beginners overlook the mate on f7, masters do not.
  CHECK(chances.front() > chances.back());
  CHECK(chances.front() > 20);
  for (const int chance : chances) CHECK((chance >= 0 && chance <= study::chance_of));
}

TEST_CASE("where the survey knows that only one move is good all others are errors") {
  const char* fen = "r1bqkbnr/pppp1ppp/2n5/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR b KQkq - 3 3";
  const Scoresheet game = sheet(fen, "g6", pgn::GameResult::unknown);
  const ErrorChances several =
      study::error_chances_at(game, 0, note_of(game.positions[0], "g6", 40, "Qe7", 20), effort);
  const ErrorChances one =
      study::error_chances_at(game, 0, note_of(game.positions[0], "g6", 40, "Qe7", -300), effort);
  for (std::size_t i = 0; i < one.size(); ++i) CHECK(one[i] > several[i]);
}

TEST_CASE("a survey has chances where an error can be made, and nowhere else") {
  search::Searcher searcher;
  study::Settings settings;
  settings.effort = {2'000, 2'000, 2'000};
  const Scoresheet game =
      sheet(rules::start_fen, "e4 e5 Qh5 Nc6 Bc4 Nf6 Qxf7#", pgn::GameResult::white_wins);
  const study::Study study = study::survey(game, settings, searcher);
  int known = 0;
  for (std::size_t ply = 0; ply < study.notes.size(); ++ply) {
    const Note& note = study.notes[ply];
    const bool may = ply < study.moves.size() && study::may_err(note);
    CAPTURE(ply);
    CHECK((note.error_chances != study::no_chances) == may);
    known += may ? 1 : 0;
  }
  CHECK(known >= 4);
  search::Searcher another;
  CHECK(study::survey(game, settings, another) == study);

  Note lost = note_of(game.positions[0], "e4", -400, "d4", -420);
  CHECK(study::is_decision(lost, 1));
  CHECK_FALSE(study::may_err(lost));
  lost.lines.pop_back();
  CHECK_FALSE(study::is_decision(lost, 1));
}
