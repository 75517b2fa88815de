// The open data beside the repository: every file gives as many games as its README counts, all of
// them legal but the one known to be wrong, and annotations do not change what was played.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <vector>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/pgn/writer.hpp"

#include "pgn/reading.hpp"

using namespace kairos;
using namespace kairos::pgn;

namespace {

const std::string data = KAIROS_SOURCE_DIR "/../shared/data";

struct Counted {
  std::string file;
  std::uint64_t games;
};

// The table of the README: `| pgn/players/Tal.pgn | player collection | 2431 | ...`.
std::vector<Counted> counts_of_readme() {
  std::vector<Counted> counts;
  const std::string text = base::read_file(data + "/README.md").value();
  for (const std::string_view line : base::split(text, '\n')) {
    const auto cells = base::split(line, '|');
    if (cells.size() < 11 || !base::trim(cells[1]).starts_with("pgn/")) continue;
    const auto games = base::to_integer(base::trim(cells[3]));
    const std::string file(base::trim(cells[1]));
    if (games) counts.push_back({file, static_cast<std::uint64_t>(*games)});
  }
  return counts;
}

std::vector<Game> replayed_games(const std::string& path, std::size_t& cut) {
  auto source = open_games(path);
  REQUIRE(source.ok());
  base::FaultList faults;
  Reader reader(**source, path, faults);
  std::vector<Game> games;
  cut = 0;
  while (auto game = reader.next()) {
    const Replay outcome = replay(*game, faults);
    CHECK(outcome.state != Replay::State::refused);
    cut += outcome.state == Replay::State::cut;
    games.push_back(std::move(*game));
  }
  CHECK_FALSE(reader.failure());
  CHECK(reader.games() == games.size());
  return games;
}

void check_same_games(const std::vector<Game>& annotated, const std::vector<Game>& bare) {
  REQUIRE(annotated.size() == bare.size());
  std::size_t nodes = 0;
  for (std::size_t i = 0; i < bare.size(); ++i) {
    INFO("game " << i + 1);
    CHECK(main_line_moves(annotated[i]) == main_line_moves(bare[i]));
    CHECK(annotated[i].result == bare[i].result);
    CHECK(annotated[i].start == bare[i].start);
    CHECK(annotated[i].tag("White") == bare[i].tag("White"));
    CHECK(bare[i].annotations.empty());
    nodes += annotated[i].nodes.size() - bare[i].nodes.size();
  }
  CHECK(nodes > 0);
}

}  // namespace

TEST_CASE("every file of the open data gives the games that its README counts") {
  if (!std::filesystem::is_directory(data)) {
    WARN("left out: no open data at " << data);
    return;
  }
  const std::vector<Counted> counts = counts_of_readme();
  CHECK(counts.size() == 31);
  for (const Counted& counted : counts) {
    INFO(counted.file);
    std::size_t cut = 0;
    const std::vector<Game> games = replayed_games(data + "/" + counted.file, cut);
    CHECK(games.size() == counted.games);
    // odd-games.tsv: game 1 has an illegal move.
    CHECK(cut == (counted.file == "pgn/odd-games.pgn" ? 1 : 0));
  }
}

TEST_CASE("comments, NAGs, variations and escape lines do not change what was played") {
  std::size_t cut = 0;
  const std::string here = KAIROS_TEST_DIR "/data/pgn/annotated";
  check_same_games(replayed_games(here + ".pgn", cut), replayed_games(here + "-mainline.pgn", cut));
  const std::string there = data + "/pgn/annotated/generated-a";
  if (!std::filesystem::exists(there + ".pgn")) {
    WARN("left out: no open data at " << data);
    return;
  }
  check_same_games(replayed_games(there + ".pgn", cut),
                   replayed_games(there + "-mainline.pgn", cut));
}

TEST_CASE("every game of the open data is written so that it is read as the same tree") {
  if (!std::filesystem::is_directory(data)) {
    WARN("left out: no open data at " << data);
    return;
  }
  for (const Counted& counted : counts_of_readme()) {
    INFO(counted.file);
    std::size_t cut = 0;
    std::string written;
    const std::vector<Game> games = replayed_games(data + "/" + counted.file, cut);
    for (const Game& game : games) written += to_pgn(game);
    Reading again = read_all(written);
    CHECK(again.faults.empty());
    REQUIRE(again.games.size() == games.size());
    std::string rewritten;
    base::FaultList contradictions;
    for (std::size_t i = 0; i < games.size(); ++i) {
      CHECK(replay(again.games[i], contradictions).state == Replay::State::playable);
      if (main_line_moves(again.games[i]) != main_line_moves(games[i])) FAIL("game " << i + 1);
      rewritten += to_pgn(again.games[i]);
    }
    CHECK((rewritten == written));
  }
}

TEST_CASE("the odd games are odd in the ways listed for them") {
  const std::string text = base::read_file(KAIROS_TEST_DIR "/data/pgn/odd-games.pgn").value();
  Reading reading = read_all(text);
  REQUIRE(reading.games.size() == 16);
  base::FaultList faults;
  std::vector<Replay> replays;
  for (Game& game : reading.games) replays.push_back(replay(game, faults));
  REQUIRE(replays[0].fault);
  CHECK(replays[0].fault->detail.starts_with("38. Bf3: "));
  std::vector<std::uint64_t> contradicted;
  for (const base::Fault& fault : faults.faults) {
    if (fault.code == base::Code::result_contradicts_board)
      contradicted.push_back(fault.place.game);
  }
  CHECK(contradicted == std::vector<std::uint64_t>{2, 3, 4});
  for (std::size_t i = 4; i < 9; ++i) {  // byte 0xF6 in Event
    CHECK(reading.games[i].tag("Event").find("\xC3\xB6") != std::string_view::npos);
  }
  const std::string names =
      std::string(reading.games[9].tag("White")) + std::string(reading.games[9].tag("Black"));
  CHECK(names.find("\xC3\xA4") != std::string::npos);  // byte 0xE4
}
