// What is verified together, and that what is told of neighbours agrees (design: coherence).
#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/study/examine.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/scoresheet.hpp"

using namespace kairos;
using study::Kind;
using study::Moment;
using study::Stretch;

namespace {

// The first games of the samples (invented).
std::vector<study::Scoresheet> sample_games(std::size_t count) {
  const std::string path = std::string(KAIROS_TEST_DIR) + "/../samples/club_open.pgn";
  const auto source = pgn::open_games(path);
  REQUIRE(source.ok());
  base::FaultList faults;
  pgn::Reader reader(**source, path, faults);
  std::vector<study::Scoresheet> sheets;
  while (auto game = reader.next()) {
    if (sheets.size() == count) break;
    REQUIRE(pgn::replay(*game, faults).state == pgn::Replay::State::playable);
    sheets.push_back(study::scoresheet_of(std::move(*game)));
  }
  return sheets;
}

// Of a place's moments one that speaks of the game's own position.
const Moment* of_the_game(const std::vector<Moment>& moments) {
  for (const Moment& m : moments) {
    if (m.kind != Kind::claim && m.kind != Kind::ended_early) return &m;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("candidates at most two plies apart are one stretch, by ply, with the greatest promise") {
  CHECK(study::stretches({}).empty());
  const auto all = study::stretches({{30, 0.9}, {10, 0.2}, {12, 0.7}, {13, 0.1}, {16, 0.5}});
  CHECK(all == std::vector<Stretch>{{{10, 12, 13}, 0.7}, {{16}, 0.5}, {{30}, 0.9}});
}

TEST_CASE("verifying with a single node comes to an end") {
  study::Settings settings;
  settings.effort = {1, 1, 1};
  search::Searcher searcher;
  std::size_t places = 0;
  for (const study::Scoresheet& sheet : sample_games(4)) {
    const study::Study study = study::survey(sheet, settings, searcher);
    for (const Stretch& stretch : study::stretches(study::candidates(sheet, study, settings))) {
      places += study::verify(sheet, study, stretch, settings, searcher).size();
    }
  }
  CHECK(places > 20);
}

TEST_CASE("what is told after a move and before the next agrees", "[slow]") {
  study::Settings settings;
  settings.effort = {3'000, 20'000, 1'000};
  search::Searcher searcher;
  int neighbours = 0;
  for (const study::Scoresheet& sheet : sample_games(8)) {
    const study::Study study = study::survey(sheet, settings, searcher);
    std::map<int, std::vector<Moment>> told;
    for (const Stretch& stretch : study::stretches(study::candidates(sheet, study, settings))) {
      for (auto& v : study::verify(sheet, study, stretch, settings, searcher)) {
        told[v.ply] = std::move(v.moments);
      }
    }
    for (const auto& [ply, moments] : told) {
      const Moment* const here = of_the_game(moments);
      const auto after = told.find(ply + 1);
      const Moment* const next = after == told.end() ? nullptr : of_the_game(after->second);
      if (here == nullptr || next == nullptr) continue;
      ++neighbours;
      INFO(sheet.facts.white << " - " << sheet.facts.black << ", ply " << ply);
      CHECK(std::abs(here->played_expectation() - (1 - next->best_expectation())) <= 0.10);
    }
  }
  CHECK(neighbours > 20);
}
