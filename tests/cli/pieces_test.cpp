// The pieces of the command line that need no process: suggestions, cut lines, progress, inputs,
// the memory of games.
#include <catch2/catch.hpp>
#include <filesystem>

#include "kairos/base/text.hpp"
#include "kairos/pgn/game.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/pgn/same_game.hpp"

#include "inputs.hpp"
#include "progress_line.hpp"
#include "seen_games.hpp"
#include "support/temporary_folder.hpp"
#include "terminal.hpp"

using namespace kairos;
using namespace kairos::cli;

TEST_CASE("progress tells rate and time left from this run alone") {
  CHECK(progress_text({.done = 0, .total = 0, .unit = "games", .note = ""}) == "0 games");
  CHECK(progress_text({.done = 30, .total = 90, .seconds = 10, .unit = "games", .note = ""}) ==
        "30 of 90 games, 3.0 games/s, 0:20 left");
  // Twenty were there before: ten in ten seconds.
  CHECK(progress_text({.done = 30,
                       .total = 90,
                       .done_at_start = 20,
                       .seconds = 10,
                       .unit = "games",
                       .note = "survey"}) == "survey: 30 of 90 games, 1.0 games/s, 1:00 left");
  CHECK(progress_text({.done = 5000, .seconds = 2, .unit = "games", .note = "a.pgn"}) ==
        "a.pgn: 5,000 games, 2,500 games/s");
}

TEST_CASE("durations are told as people do") {
  CHECK(duration_text(0) == "0:00");
  CHECK(duration_text(59.6) == "1:00");
  CHECK(duration_text(725) == "12:05");
  CHECK(duration_text(3 * 3600 + 4 * 60 + 5) == "3:04:05");
}

TEST_CASE("inputs are files, folders by order of name, and standard input once") {
  test::TemporaryFolder folder;
  std::filesystem::create_directory(folder / "season");
  folder.write("season/b.pgn", "");
  folder.write("season/a.pgn.gz", "");
  folder.write("season/readme.txt", "");
  std::filesystem::create_directory(folder / "season/old.pgn");
  folder.write("one.txt", "");

  const Inputs inputs = find_inputs({folder / "season", folder / "one.txt", "-"});
  CHECK(inputs.faults.empty());
  CHECK(inputs.files == std::vector<std::string>{folder / "season/a.pgn.gz",
                                                 folder / "season/b.pgn", folder / "one.txt", "-"});
  CHECK(find_inputs({"-", "-"}).faults.size() == 1);
  CHECK(find_inputs({folder / "none.pgn"}).faults.front().code == base::Code::cannot_open);
  CHECK(find_inputs({folder / "season/old.pgn"}).faults.front().code == base::Code::is_a_directory);
}

TEST_CASE("a folder stands for the PGN files of its subfolders too, in capitals or not") {
  test::TemporaryFolder folder;
  for (const char* name : {"season", "season/empty", "season/b", "season/b/deep.pgn"}) {
    std::filesystem::create_directory(folder / name);
  }
  for (const char* name : {"season/c.PGN", "season/a.Pgn.GZ", "season/b/2.pgn", "season/b/1.pgn",
                           "season/b/deep.pgn/x.pgn", "season/b/notes.pgn.txt"}) {
    folder.write(name, "");
  }
  const Inputs inputs = find_inputs({folder / "season"});
  CHECK(inputs.faults.empty());
  CHECK(inputs.files ==
        std::vector<std::string>{folder / "season/a.Pgn.GZ", folder / "season/b/1.pgn",
                                 folder / "season/b/2.pgn", folder / "season/b/deep.pgn/x.pgn",
                                 folder / "season/c.PGN"});
}

TEST_CASE("links to folders are followed, each folder is entered once, circles end") {
  test::TemporaryFolder folder;
  for (const char* name : {"season", "season/may", "archive"}) {
    std::filesystem::create_directory(folder / name);
  }
  folder.write("season/may/a.pgn", "");
  folder.write("archive/b.pgn", "");
  std::filesystem::create_directory_symlink(folder / "archive", folder / "season/last");
  std::filesystem::create_directory_symlink(folder / "season", folder / "season/may/up");
  std::filesystem::create_directory_symlink(folder / "season", folder / "archive/back");
  std::filesystem::create_directory_symlink(folder / "season/may", folder / "season/maytoo");
  const Inputs inputs = find_inputs({folder / "season"});
  CHECK(inputs.faults.empty());
  CHECK(inputs.files ==
        std::vector<std::string>{folder / "season/last/b.pgn", folder / "season/may/a.pgn"});
}

TEST_CASE("in folders the PGN of an earlier scan is no input, a file of that name alone is") {
  test::TemporaryFolder folder;
  for (const char* name : {"season", "season/out", "season/mine"}) {
    std::filesystem::create_directory(folder / name);
  }
  for (const char* name : {"season/out/annotated.pgn", "season/out/ledger", "season/out/other.pgn",
                           "season/mine/annotated.pgn"}) {
    folder.write(name, "");
  }
  CHECK(find_inputs({folder / "season"}).files ==
        std::vector<std::string>{folder / "season/mine/annotated.pgn",
                                 folder / "season/out/other.pgn"});
  CHECK(find_inputs({folder / "season/out/annotated.pgn"}).files.size() == 1);
}

namespace {

std::uint64_t hash_of(const std::string& text) {
  base::MemorySource source(text);
  base::FaultList faults;
  pgn::Reader reader(source, "test", faults);
  auto game = reader.next();
  REQUIRE(game.has_value());
  (void)pgn::replay(*game, faults);
  return pgn::identity_of(*game);
}

}  // namespace

TEST_CASE("a short game is known by moves and surnames, a long one by its moves") {
  const std::string short_game = "1. e4 e5 2. Nf3 *";
  const auto with = [](const char* white, const std::string& moves) {
    return "[White \"" + std::string(white) + "\"]\n[Black \"Birch, Jon\"]\n\n" + moves + "\n";
  };
  CHECK(hash_of(with("Amber, Ida", short_game)) == hash_of(with("amber,I.", short_game)));
  CHECK(hash_of(with("Amber, Ida", short_game)) != hash_of(with("Cedar, Kim", short_game)));
  CHECK(hash_of(with("Amber, Ida", short_game)) !=
        hash_of(with("Amber, Ida", "1. e4 e5 2. Nc3 *")));
  CHECK(hash_of(with("Amber, Ida", "*")) == 0);

  std::string long_game;
  for (int i = 0; i < 8; ++i) {
    long_game += i % 2 == 0 ? "Nf3 Nf6 Nc3 Nc6 " : "Ng1 Ng8 Nb1 Nb8 ";
  }
  CHECK(hash_of(with("Amber, Ida", long_game)) == hash_of(with("Cedar, Kim", long_game)));
  // A variation does not make another game.
  CHECK(hash_of(with("Amber, Ida", short_game)) ==
        hash_of(with("Amber, Ida", "1. e4 e5 (1... c5) 2. Nf3 *")));
}

TEST_CASE("twins are told by order of the later game, each with the first of its kind") {
  SeenGames seen;
  seen.add(77, {1, 10});
  seen.add(55, {2, 20});
  seen.add(0, {3, 30});  // a game without moves
  seen.add(0, {4, 40});
  seen.add(55, {5, 50});
  seen.add(77, {6, 60});
  seen.add(55, {7, 70});
  std::vector<std::pair<std::uint32_t, std::uint32_t>> told;
  const auto tell = [&told](GameSpot first, GameSpot again) {
    told.emplace_back(first.game, again.game);
    CHECK(first.line == first.game * 10);
    CHECK(again.line == again.game * 10);
  };
  seen.take_twins(tell);
  CHECK(told == std::vector<std::pair<std::uint32_t, std::uint32_t>>{{2, 5}, {1, 6}, {2, 7}});
  told.clear();
  seen.take_twins(tell);
  CHECK(told.empty());
}

TEST_CASE("different hashes are counted once each, however many there are") {
  HashSet set;
  std::uint64_t hash = 1;
  for (int round = 0; round < 2; ++round) {
    hash = 1;
    for (int i = 0; i < 10'000; ++i) set.add(hash = hash * 6364136223846793005U + 1);
  }
  CHECK(set.size() == 10'000);
}

TEST_CASE("games and players beyond those that are kept are not taken, and it is told") {
  SeenGames seen(3);
  for (std::uint32_t game = 1; game <= 3; ++game) seen.add(7, {game, game});
  CHECK_FALSE(seen.is_full());
  seen.add(7, {4, 4});
  CHECK(seen.is_full());
  int twins = 0;
  seen.take_twins([&twins](GameSpot, GameSpot again) { twins += again.game <= 3 ? 1 : 100; });
  CHECK(twins == 2);

  HashSet players(3);
  for (const std::uint64_t hash : {1U, 2U, 3U, 3U, 1U}) players.add(hash);
  CHECK_FALSE(players.is_full());
  players.add(4);
  CHECK(players.is_full());
  CHECK(players.size() == 3);
}
