// Every sentence against the line printed under it, on the board: moves, mates, men, standings.
//
// The games are those of samples/ at a small effort; with the tag [.long] also open collections,
// where they are there. What a search of little effort says may be poor chess, but the text must
// say the same as its lines.
#include <catch2/catch.hpp>
#include <filesystem>

#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/report/words.hpp"
#include "kairos/study/examine.hpp"
#include "kairos/study/told.hpp"

#include "support/games.hpp"
#include "support/said.hpp"

using namespace kairos;

namespace {

study::Study studied(pgn::Game game, const study::Settings& settings, search::Searcher& searcher) {
  const study::Scoresheet sheet = study::scoresheet_of(std::move(game));
  study::Study made = study::survey(sheet, settings, searcher);
  for (const auto& stretch : study::stretches(study::candidates(sheet, made, settings))) {
    for (study::Verified& v : study::verify(sheet, made, stretch, settings, searcher)) {
      for (study::Moment& m : v.moments) made.moments.push_back(std::move(m));
    }
  }
  study::tell(made);
  return made;
}

std::vector<std::string> faults_of(const study::Study& study) {
  std::vector<std::string> faults;
  std::vector<report::TurningPoint> points = report::turning_points(study);
  for (const study::Moment& m : study.moments) points.push_back(report::alone(m));
  for (const report::TurningPoint& point : points) {
    for (std::string& fault : test::Reader(study, point).wrong()) {
      faults.push_back(std::move(fault));
    }
  }
  return faults;
}

// Of the first `most` games of a file; returns how many turning points were read.
std::size_t read_aloud(const std::string& path, std::size_t most, const study::Settings& settings) {
  base::FaultList ignored;
  auto source = pgn::open_games(path);
  REQUIRE(source.ok());
  pgn::Reader reader(**source, path, ignored);
  search::Searcher searcher;
  std::size_t points = 0;
  for (std::size_t i = 0; i < most; ++i) {
    auto game = reader.next();
    if (!game) break;
    pgn::replay(*game, ignored);
    const study::Study study = studied(std::move(*game), settings, searcher);
    points += report::turning_points(study).size();
    for (const std::string& fault : faults_of(study)) {
      CAPTURE(path, i + 1, fault);
      CHECK(fault.empty());
    }
  }
  return points;
}

study::Settings small_effort() {
  study::Settings settings;
  settings.effort.survey_nodes = 1'500;
  settings.effort.verify_nodes = 15'000;
  settings.effort.puzzle_nodes = 1;
  return settings;
}

}  // namespace

TEST_CASE("no sentence of the samples contradicts the lines printed under it", "[.long]") {
  const std::string samples = std::string(KAIROS_SOURCE_DIR) + "/samples/";
  CHECK(read_aloud(samples + "club_open.pgn", 15, small_effort()) > 40);
  CHECK(read_aloud(samples + "annotated_game.pgn", 1, small_effort()) > 1);
}

namespace {

// So many games of each of eight open collections; returns the number of turning points read.
std::size_t read_collections(std::size_t games) {
  const std::string folder = std::string(KAIROS_SOURCE_DIR) + "/../shared/data/pgn/";
  std::size_t points = 0;
  for (const char* const file :
       {"events/NewYork1924.pgn", "events/Linares1994.pgn", "events/Hastings1895.pgn",
        "events/Candidates1953.pgn", "rated/Biel2008.pgn", "rated/FideChamp1999.pgn",
        "events/London1851.pgn", "events/Sochi2008.pgn"}) {
    if (std::filesystem::exists(folder + file)) {
      points += read_aloud(folder + file, games, small_effort());
    } else {
      WARN("left out, for it is not there: " << folder + file);
    }
  }
  return points;
}

}  // namespace

TEST_CASE("no sentence of some games of open collections contradicts its lines", "[.long]") {
  read_collections(3);
}

// Four minutes: by hand, whenever words or reasons change.
TEST_CASE("no sentence of 200 games of open collections contradicts its lines", "[.open]") {
  CHECK(read_collections(25) > 400);  // 424: there is something to read
}

namespace {

// Legal-Saint Brie, Paris c.1750: 5... Bxd1 6. Bxf7+ Ke7 7. Nd5#.
study::Moment legal_swing() {
  study::Moment m;
  m.kind = study::Kind::swing;
  m.position =
      support::position("rn1qkbnr/ppp2p1p/3p2p1/4N3/2B1P1b1/2N5/PPPP1PPP/R1BQK2R b KQkq - 0 5");
  m.played = support::move(m.position, "Bxd1");
  m.line = support::line(m.position, "dxe5 Qxg4 Nf6");
  m.best = m.line.front();
  m.refutation = support::line(m.position.after(m.played), "Bxf7+ Ke7 Nd5#");
  m.best_score = -150;
  m.played_score = search::mated_in_plies(4);
  study::Reason& reason = m.reasons.emplace_back();
  reason.role = study::Role::reply;
  reason.kind = study::ReasonKind::mates;
  reason.move = m.refutation.front();
  reason.mate_moves = 2;
  return m;
}

std::string first_fault(const study::Moment& m) {
  const study::Study study;
  const auto faults = test::Reader(study, report::alone(m)).wrong();
  return faults.empty() ? "" : faults.front().substr(0, faults.front().find("  <-"));
}

}  // namespace

TEST_CASE("the reader of sentences finds none at fault that is true, and those that are not") {
  study::Moment m = legal_swing();
  CHECK(first_fault(m).empty());
  m.reasons[0].mate_moves = 1;
  CHECK(first_fault(m) == "no mate");
  m.reasons[0].mate_moves = 3;
  CHECK(first_fault(m) == "the line ends before the mate");
  m.reasons[0].kind = study::ReasonKind::wins_material;
  m.reasons[0].men.won[rules::rook] = 1;
  CHECK(first_fault(m) == "no rook is taken in the line of Bxf7+");
  m.reasons[0].men.won = {};
  m.reasons[0].men.won[rules::pawn] = 1;  // taken, but the queen is gone
  CHECK(first_fault(m) == "nothing is won in the line of Bxf7+");
  // A man named with its square stands there in the line.
  m.reasons[0].kind = study::ReasonKind::hits;
  m.reasons[0].men = {};
  m.reasons[0].squares = {rules::e7};
  m.reasons[0].pieces = {rules::king};
  CHECK(first_fault(m).empty());
  m.reasons[0].squares = {rules::d1};
  m.reasons[0].pieces = {rules::bishop};
  CHECK(first_fault(m).empty());
  m.reasons[0].pieces = {rules::rook};
  CHECK(first_fault(m) == "no rook stands on d1");
  // The state after a move is the one of the score behind its line.
  m = legal_swing();
  m.reasons.clear();
  m.played_score = -150;
  CHECK(first_fault(m).empty());
  // What the next best costs.
  m = legal_swing();
  m.kind = study::Kind::only_move;
  m.second = support::move(m.position, "Be6");
  m.second_refutation = support::line(m.position.after(m.second), "Bxe6");
  m.best_score = m.played_score = 0;
  m.played = m.best;
  m.second_score = -150;
  CHECK(first_fault(m).empty());
  m.reasons[0].role = study::Role::second_reply;
  m.reasons[0].move = m.second_refutation.front();
  m.reasons[0].line = m.second_refutation;
  m.reasons[0].mate_moves = 1;
  CHECK(first_fault(m) == "no mate: allows mate: 6. Bxe6");
}
