#include "kairos/batch/intake.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "support/small_games.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using base::Code;
using batch::Input;
using test::TemporaryFolder;

namespace {

const std::atomic<bool> go{false};

batch::Ledger open(const std::string& folder, batch::Part part = {}) {
  base::FaultList faults;
  auto ledger = batch::Ledger::open(folder, {"1.0", "0a1b2c3d", 1, "settings", part}, faults);
  REQUIRE(ledger.ok());
  return std::move(*ledger);
}

std::string game_of(const std::string& moves) {
  return "[Event \"Test\"]\n[Result \"*\"]\n\n" + moves + " *\n\n";
}

std::vector<Code> codes_of(const Input& input) {
  std::vector<Code> codes;
  for (const base::Fault& fault : input.faults) codes.push_back(fault.code);
  return codes;
}

}  // namespace

TEST_CASE("every game gets its number, and what is left out is listed with its place") {
  const TemporaryFolder folder;
  folder.write("a.pgn", std::string(test::small_games));
  folder.write("b.pgn", "[White \"Or, Y\"]\n[Black \"Ur, X\"]\n\n1. c4 *\n");
  auto ledger = open(folder.path());
  const auto input = batch::take_in({folder / "a.pgn", folder / "b.pgn"}, ledger, go);
  REQUIRE(input.ok());
  CHECK(input->complete);
  CHECK(input->games_total == 6);
  CHECK(input->skipped() == 1);
  REQUIRE(input->games.size() == 5);
  CHECK(input->games[3].number == 4);
  CHECK(input->games[4].number == 6);
  CHECK(input->games[4].file == 1);
  CHECK(input->games[4].white == "Or, Y");
  CHECK(codes_of(*input) == std::vector<Code>{Code::illegal_move, Code::variant_unsupported});
  CHECK(input->faults[0].place.file == folder / "a.pgn");
  CHECK(input->faults[0].place.game == 4);
  CHECK(input->faults[0].place.line == 28);
  for (const auto& game : input->games) CHECK(ledger.has_game(game.key));
  CHECK(ledger.game_text(input->games[4].key)->find("1. c4 *") != std::string::npos);
}

TEST_CASE("a game that stands there twice, word for word, is taken once") {
  const TemporaryFolder folder;
  folder.write("a.pgn", std::string(test::small_games));
  auto ledger = open(folder.path());
  const auto input = batch::take_in({folder / "a.pgn", folder / "a.pgn"}, ledger, go);
  REQUIRE(input.ok());
  CHECK(input->games_total == 10);
  CHECK(input->games.size() == 4);
  CHECK(input->skipped() == 6);
  const auto codes = codes_of(*input);
  CHECK(std::count(codes.begin(), codes.end(), Code::duplicate_game) == 4);
  CHECK(input->repeats == 4);
}

TEST_CASE("the same game told with other words, tags and notes is studied once and listed") {
  // It was studied twice: only games that were the same word for word were known again.
  const TemporaryFolder folder;
  folder.write(
      "a.pgn",
      "[White \"Rosin, Ada\"]\n[Black \"Marek\"]\n\n1. e4 e5 2. Nf3 *\n\n"
      "[White \"Rosin, A.\"]\n[Black \"Marek, Tom\"]\n\n1. e4 {mine} e5 (1... c5) 2. Nf3 *\n\n"
      "[White \"Rosin, A.\"]\n[Black \"Bellini\"]\n\n1. e4 e5 2. Nf3 *\n\n");
  auto ledger = open(folder.path());
  const auto input = batch::take_in({folder / "a.pgn"}, ledger, go);
  REQUIRE(input.ok());
  REQUIRE(input->games.size() == 2);  // short games of other players are other games
  CHECK(input->games[1].number == 3);
  CHECK(input->repeats == 1);
  const auto repeat = std::find_if(input->faults.begin(), input->faults.end(),
                                   [](const auto& f) { return f.code == Code::duplicate_game; });
  REQUIRE(repeat != input->faults.end());
  CHECK(repeat->place.game == 2);
  CHECK(repeat->detail == "as at " + (folder / "a.pgn") + ":1, Rosin, Ada - Marek");
}

TEST_CASE("games that are known are not written again, wherever they stand now") {
  const TemporaryFolder folder;
  const std::string king = game_of("1. e4"), queen = game_of("1. d4"), english = game_of("1. c4");
  folder.write("a.pgn", king + queen);
  folder.write("b.pgn", english + queen + king);
  auto ledger = open(folder.path());
  const auto before = batch::take_in({folder / "a.pgn"}, ledger, go);
  REQUIRE(ledger.sync().ok());
  const auto size_before = folder.read("ledger").size();
  REQUIRE(batch::take_in({folder / "a.pgn"}, ledger, go).ok());
  CHECK(folder.read("ledger").size() == size_before);
  const auto after = batch::take_in({folder / "b.pgn"}, ledger, go);
  REQUIRE(after.ok());
  CHECK(after->games[1].key == before->games[1].key);
  CHECK(after->games[2].key == before->games[0].key);
  const std::string ledger_text = folder.read("ledger");
  std::size_t games = 0;
  for (std::size_t at = 0; (at = ledger_text.find("\"record\":\"game\"", at)) != std::string::npos;
       ++at) {
    ++games;
  }
  CHECK(games == 3);
}

TEST_CASE("a part lists all games and stores its own") {
  const TemporaryFolder folder;
  folder.write("a.pgn", std::string(test::small_games));
  auto ledger = open(folder.path(), {2, 3});
  const auto input = batch::take_in({folder / "a.pgn"}, ledger, go);
  REQUIRE(input.ok());
  REQUIRE(input->games.size() == 4);
  for (std::size_t i = 0; i < 4; ++i) CHECK(ledger.has_game(input->games[i].key) == (i == 1));
}

TEST_CASE("files that cannot be used are told, and stop the work only when nothing is left") {
  const TemporaryFolder folder;
  folder.write("games.pgn", "1. e4 *\n");
  folder.write("empty.pgn", "");
  folder.write("blank.pgn", "\n\n");
  folder.write("cut.pgn.gz", std::string("\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\x03", 10));
  auto ledger = open(folder.path());
  const auto some = batch::take_in(
      {folder / "empty.pgn", folder / "games.pgn", folder / "blank.pgn", folder / "cut.pgn.gz"},
      ledger, go);
  REQUIRE(some.ok());
  CHECK(some->games.size() == 1);
  CHECK(codes_of(*some) ==
        std::vector<Code>{Code::file_empty, Code::no_games, Code::gzip_truncated});
  const auto none = batch::take_in({folder / "empty.pgn"}, ledger, go);
  REQUIRE_FALSE(none.ok());
  CHECK(none.fault().code == Code::file_empty);
  CHECK(batch::take_in({folder / "absent"}, ledger, go).fault().code == Code::cannot_open);
}

TEST_CASE("an input that was stopped is not complete") {
  const TemporaryFolder folder;
  folder.write("a.pgn", std::string(test::small_games));
  auto ledger = open(folder.path());
  const std::atomic<bool> stop{true};
  const auto input = batch::take_in({folder / "a.pgn"}, ledger, stop);
  REQUIRE(input.ok());
  CHECK_FALSE(input->complete);
}

TEST_CASE("opening moves that five games share are counted, by whatever order of moves") {
  const TemporaryFolder folder;
  // Four games by one order and one by another meet after three plies; the fourth move is the
  // second game's own, and the last game has nothing in common with the others.
  std::string games;
  for (const char* fourth : {"c5", "e6", "c6", "Nf6"}) {
    games += game_of("1. d4 d5 2. Nf3 " + std::string(fourth));
  }
  games += game_of("1. Nf3 d5 2. d4 g6") + game_of("1. b4 a5 2. Bb2 h5");
  folder.write("a.pgn", games);
  auto ledger = open(folder.path());
  const auto input = batch::take_in({folder / "a.pgn"}, ledger, go);
  REQUIRE(input.ok());
  REQUIRE(input->games.size() == 6);
  // 1. d4 stood in four games only, so nothing behind it counts as the common way either.
  CHECK(input->games[0].shared_plies == 0);
  CHECK(input->games[5].shared_plies == 0);

  folder.write("b.pgn", game_of("1. d4 d5 2. Nf3 Bf5"));
  const TemporaryFolder other;
  auto more = open(other.path());
  const auto wider = batch::take_in({folder / "a.pgn", folder / "b.pgn"}, more, go);
  REQUIRE(wider.ok());
  REQUIRE(wider->games.size() == 7);
  CHECK(wider->games[0].shared_plies == 3);
  CHECK(wider->games[6].shared_plies == 3);
  CHECK(wider->games[4].shared_plies == 0);  // its own first move is nobody else's
  CHECK(wider->games[5].shared_plies == 0);
}

TEST_CASE("faults beyond a thousand are counted, and a broken file is told all the same") {
  const TemporaryFolder folder;
  std::string broken;
  for (int i = 0; i < 3'000; ++i) broken += "[Round \"" + std::to_string(i) + "\"]\n\n1. Ke3 *\n\n";
  folder.write("a.pgn", broken + game_of("1. e4"));
  folder.write("cut.pgn.gz", std::string("\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\x03", 10));
  auto ledger = open(folder.path());
  const auto input = batch::take_in({folder / "a.pgn", folder / "cut.pgn.gz"}, ledger, go);
  REQUIRE(input.ok());
  CHECK(input->games.size() == 3'001);
  const auto codes = codes_of(*input);
  REQUIRE(codes.size() == base::most_faults + 2);
  CHECK(std::count(codes.begin(), codes.end(), Code::illegal_move) == base::most_faults);
  CHECK(input->faults[base::most_faults].detail == "2,000 more");
  CHECK(codes.back() == Code::gzip_truncated);
  // The ledger keeps them as they are.
  REQUIRE(ledger.put_input(*input).ok());
  base::FaultList ignored;
  const auto again = batch::Ledger::read(folder.path(), ignored);
  REQUIRE(again.ok());
  CHECK(codes_of(*again->input()) == codes);
}

TEST_CASE("games that stand there a hundred thousand times cost no memory each") {
  const TemporaryFolder folder;
  std::string same;
  for (int i = 0; i < 100'000; ++i) same += "*\n\n";
  folder.write("a.pgn", same);
  auto ledger = open(folder.path());
  const auto input = batch::take_in({folder / "a.pgn"}, ledger, go);
  REQUIRE(input.ok());
  CHECK(input->games.size() == 1);
  CHECK(input->games_total == 100'000);
  CHECK(input->faults.size() == base::most_faults + 1);
}

TEST_CASE("games beyond those that one run takes are counted, and it is the first thing told") {
  const TemporaryFolder folder;
  std::string games;
  const std::size_t beyond = 50;
  for (std::size_t i = 0; i < batch::most_games + beyond; ++i) {
    games += "[White \"" + std::to_string(i) + "\"]\n\n1. e4 *\n\n";
  }
  folder.write("a.pgn", games + "1. Ke3 *\n");
  auto ledger = open(folder.path());
  const auto input = batch::take_in({folder / "a.pgn"}, ledger, go);
  REQUIRE(input.ok());
  CHECK(input->complete);
  CHECK(input->games.size() == batch::most_games);
  CHECK(input->games_total == batch::most_games + beyond + 1);
  CHECK(input->games[0].shared_plies == 1);
  REQUIRE_FALSE(input->faults.empty());
  const base::Fault& told = input->faults.front();
  CHECK(told.code == Code::too_many_games);
  CHECK(told.place.game == batch::most_games + 1);
  CHECK(told.detail.find("51 passed over") != std::string::npos);
}

TEST_CASE("of a name with thousands of letters the first are kept") {
  const TemporaryFolder folder;
  folder.write("a.pgn", "[White \"" + std::string(8'000, 'w') + "\"]\n\n1. e4 *\n");
  auto ledger = open(folder.path());
  const auto input = batch::take_in({folder / "a.pgn"}, ledger, go);
  REQUIRE(input.ok());
  CHECK(input->games[0].white == std::string(study::longest_fact, 'w'));
  CHECK(ledger.game_text(input->games[0].key)->size() > 8'000);  // the game keeps its tags
}
