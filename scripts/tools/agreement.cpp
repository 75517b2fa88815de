// How far a short search agrees with a long one.
//
//   kairos_agreement GAMES.pgn [--positions 300] [--nodes 200000] [--long-nodes 20000000]
//                    [--seed 1] [--threads 2]
//
// Draws positions by lot, one a game and round, from ply 16 on, searches each with both efforts
// and, where the moves differ, the short search's move with the long effort. Prints how often that
// move is within 0.03 of the best by expectation, how often the expectation itself is off by 0.15
// or more, and the same in centipawns of the curve at its steepest.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <iostream>
#include <map>
#include <string>
#include <vector>

#include "kairos/base/threads.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/scoresheet.hpp"
#include "kairos/study/search_move.hpp"

#include "chance.hpp"

using namespace kairos;

namespace {

constexpr std::size_t from_ply = 16;
constexpr double near_best = 0.03, far_off = 0.15;
constexpr std::size_t table_bytes = std::size_t{64} << 20;

struct Place {
  rules::Position position = rules::Position::start();
  std::vector<rules::Key> earlier;
};

struct Difference {
  double loss = 0;  // of the move
  double off = 0;   // of the expectation
};

std::vector<study::Scoresheet> read_games(const std::string& path) {
  std::vector<study::Scoresheet> sheets;
  auto source = pgn::open_games(path);
  if (!source) return sheets;
  base::FaultList faults;
  pgn::Reader reader(**source, path, faults);
  while (auto game = reader.next()) {
    if (pgn::replay(*game, faults).state != pgn::Replay::State::playable) continue;
    auto sheet = study::scoresheet_of(std::move(*game));
    if (sheet.moves.size() > from_ply) sheets.push_back(std::move(sheet));
  }
  return sheets;
}

std::vector<Place> draw(const std::vector<study::Scoresheet>& sheets, std::size_t count,
                        learn::Chance chance) {
  std::vector<Place> places;
  while (places.size() < count) {
    for (const study::Scoresheet& sheet : sheets) {
      if (places.size() == count) break;
      const std::size_t ply = from_ply + chance.below(sheet.moves.size() - from_ply);
      const auto keys = sheet.keys_before(static_cast<int>(ply));
      places.push_back({sheet.positions[ply], {keys.begin(), keys.end()}});
    }
  }
  return places;
}

Difference compare(const Place& place, std::uint64_t few, std::uint64_t many) {
  search::Searcher searcher(table_bytes);
  search::Limits limits;
  limits.nodes = few;
  const search::Line brief = searcher.search(place.position, place.earlier, limits).lines.front();
  searcher.clear();
  limits.nodes = many;
  const search::Line best = searcher.search(place.position, place.earlier, limits).lines.front();
  Difference d;
  d.off = std::abs(study::expectation(brief.score) - study::expectation(best.score));
  if (brief.moves.front() == best.moves.front()) return d;
  const study::MoveVerdict chosen =
      study::search_move(place.position, place.earlier, brief.moves.front(), many, searcher);
  d.loss = std::max(0.0, study::expectation(best.score) - study::expectation(chosen.score));
  return d;
}

void print(const std::vector<Difference>& differences) {
  const auto share = [&](auto holds) {
    return 100.0 *
           static_cast<double>(std::count_if(differences.begin(), differences.end(), holds)) /
           static_cast<double>(differences.size());
  };
  // Centipawns that are worth as much as the bounds where the curve is steepest.
  const auto worth = [](double e) {
    int score = 0;
    while (study::expectation(score) - 0.5 < e) ++score;
    return score;
  };
  std::printf("%zu positions\n", differences.size());
  std::printf("move within %.2f (%d centipawns at level): %.1f %%\n", near_best, worth(near_best),
              share([](const Difference& d) { return d.loss <= near_best; }));
  std::printf("expectation off by %.2f (%d) or more: %.1f %%\n", far_off, worth(far_off),
              share([](const Difference& d) { return d.off >= far_off; }));
}

}  // namespace

int main(int count, char** words) {
  std::map<std::string, std::uint64_t> options = {{"--positions", 300},
                                                  {"--nodes", 200'000},
                                                  {"--long-nodes", 20'000'000},
                                                  {"--seed", 1},
                                                  {"--threads", 2}};
  for (int i = 2; i + 1 < count; i += 2) options[words[i]] = std::stoull(words[i + 1]);
  const auto sheets = count > 1 ? read_games(words[1]) : std::vector<study::Scoresheet>();
  if (sheets.empty()) {
    std::cerr << "usage: kairos_agreement GAMES.pgn [options: see scripts/tools/agreement.cpp]\n";
    return 2;
  }
  const auto places = draw(sheets, options["--positions"], learn::Chance(options["--seed"]));
  std::vector<Difference> differences(places.size());
  const std::uint64_t few = options["--nodes"], many = options["--long-nodes"];
  const auto make_worker = [&] {
    return [&](std::size_t i) { differences[i] = compare(places[i], few, many); };
  };
  base::share_out(places.size(), static_cast<int>(options["--threads"]), make_worker, [] {});
  print(differences);
}
