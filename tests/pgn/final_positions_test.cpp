// The last position of every game of the open collections, against an outside rules library: the
// fixture names it and its version (scripts/final_positions makes it).
#include <catch2/catch.hpp>
#include <filesystem>
#include <set>
#include <string>

#include "kairos/base/checksum.hpp"
#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/rules/fen.hpp"

using namespace kairos;

namespace {

struct Finals {
  std::int64_t games = 0;
  std::uint32_t checksum = 0;
};

Finals finals_of(const std::string& path) {
  auto source = pgn::open_games(path);
  REQUIRE(source.ok());
  base::FaultList faults;
  pgn::Reader reader(**source, path, faults);
  Finals finals;
  pgn::Game game;
  while (reader.next(game)) {
    const std::string fen = rules::to_fen(pgn::replay(game, faults).last) + "\n";
    finals.checksum = base::crc32(fen, finals.checksum);
    ++finals.games;
  }
  return finals;
}

// The PGN files of a folder and its folders, by their names from there.
std::set<std::string> files_under(const std::string& folder) {
  std::set<std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    const std::string name = std::filesystem::relative(entry.path(), folder).generic_string();
    if (name.ends_with(".pgn") || name.ends_with(".pgn.gz")) files.insert(name);
  }
  return files;
}

}  // namespace

TEST_CASE("every game of the open collections ends where an outside rules library sees its end") {
  const std::string folder = KAIROS_SOURCE_DIR "/../shared/data/pgn";
  if (!std::filesystem::is_directory(folder)) {
    WARN("skipped: the open collections are not beside the repository (" << folder << ")");
    return;
  }
  const auto text = base::read_file(KAIROS_TEST_DIR "/data/final_positions.tsv");
  REQUIRE(text.ok());
  std::set<std::string> files;
  for (const std::string_view line : base::split(*text, '\n')) {
    if (line.empty() || line[0] == '#') continue;
    const auto parts = base::split(line, '\t');
    REQUIRE(parts.size() == 3);
    INFO(std::string(parts[0]));
    const Finals finals = finals_of(folder + "/" + std::string(parts[0]));
    CHECK(finals.games == base::to_integer(parts[1]));
    CHECK(finals.checksum == std::stoul(std::string(parts[2]), nullptr, 16));
    files.insert(std::string(parts[0]));
  }
  CHECK(files == files_under(folder));
}
