// Packed input.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <memory>
#include <string>

#include "kairos/base/files.hpp"
#include "kairos/pgn/gzip_source.hpp"
#include "kairos/pgn/reader.hpp"

#include "support/packed.hpp"

using namespace kairos;
using namespace kairos::pgn;
using base::Code;

namespace {

struct Unpacked {
  std::string text;
  std::optional<Code> fault;
};

Unpacked unpack(std::string_view bytes, std::size_t piece, std::size_t room_size = 1000) {
  Unpacked result;
  auto source = unpacked(std::make_unique<base::MemorySource>(bytes, piece), "games.pgn.gz");
  REQUIRE(source.ok());
  std::string room(room_size, '\0');
  for (;;) {
    auto n = (*source)->read(room);
    if (!n) {
      result.fault = n.fault().code;
      CHECK(n.fault().place.file == "games.pgn.gz");
      CHECK_FALSE((*source)->read(room).ok());
      return result;
    }
    if (*n == 0) return result;
    result.text.append(room, 0, *n);
  }
}

std::string long_text() {
  std::string text;
  for (int i = 0; i < 20000; ++i) text += "1. e4 e5 " + std::to_string(i) + '\n';
  return text;
}

}  // namespace

TEST_CASE("packed text is told by its first bytes and unpacked, plain text handed on") {
  const std::string text = long_text();
  for (const std::size_t piece : {std::size_t{1}, std::size_t{100}, std::size_t{1} << 20}) {
    CHECK(unpack(packed(text), piece).text == text);
    CHECK(unpack(text, piece).text == text);
  }
  for (const std::string little : {"", "a", "\x1F", "\x1F."}) {
    CHECK(unpack(little, 1).text == little);
    CHECK_FALSE(unpack(little, 1).fault);
  }
}

TEST_CASE("members end to end are one text, and zero bytes behind the last are nothing") {
  const std::string all = packed("one\n") + packed("") + packed("two\n") + std::string(600, '\0');
  for (const std::size_t piece : {std::size_t{1}, std::size_t{7}, all.size()}) {
    const Unpacked result = unpack(all, piece);
    CHECK(result.text == "one\ntwo\n");
    CHECK_FALSE(result.fault);
  }
}

TEST_CASE("a stream that breaks off gives what came before, and its fault") {
  const std::string text = long_text();
  const std::string all = packed("first\n") + packed(text);
  const std::size_t second = packed("first\n").size();
  for (const std::size_t size :
       {second + 3, second + 10, second + 5000, all.size() - 9, all.size() - 1}) {
    const Unpacked result = unpack(std::string_view(all).substr(0, size), 97);
    INFO(size);
    REQUIRE(result.fault);
    CHECK(*result.fault == Code::gzip_truncated);
    CHECK(("first\n" + text).starts_with(result.text));
    CHECK(result.text.starts_with("first\n"));
  }
}

TEST_CASE("damage gives what came before, and its fault") {
  std::string wrong_sum = packed("first\n") + packed("second\n");
  wrong_sum[wrong_sum.size() - 6] ^= 1;
  CHECK(unpack(wrong_sum, 5).text == "first\nsecond\n");
  CHECK(unpack(wrong_sum, 5).fault == Code::gzip_damaged);
  const std::string rubbish = packed("first\n") + "rubbish that is no member";
  CHECK(unpack(rubbish, 5).text == "first\n");
  CHECK(unpack(rubbish, 5).fault == Code::gzip_damaged);
  std::string wrong_block = packed("first\n");
  wrong_block[10] = '\x07';
  CHECK(unpack(wrong_block, 5).fault == Code::gzip_damaged);
}

TEST_CASE("every byte at which a packed file may break off is told, none crashes") {
  const std::string all = packed("[White \"A\"]\n\n1. e4 *\n");
  for (std::size_t size = 2; size < all.size(); ++size) {
    CHECK(unpack(std::string_view(all).substr(0, size), 3, 4).fault == Code::gzip_truncated);
  }
}

TEST_CASE("the reader tells damage with the file and the game it happened in") {
  const std::string all = packed("[White \"A\"]\n\n1. e4 *\n\n[White \"B\"]\n\n1. d4 d5 2. c4 *\n");
  auto source = unpacked(
      std::make_unique<base::MemorySource>(std::string_view(all).substr(0, all.size() - 20)),
      "games.pgn.gz");
  base::FaultList faults;
  Reader reader(**source, "games.pgn.gz", faults);
  std::string players;
  while (auto game = reader.next()) players += game->tag("White");
  CHECK(players == "AB");
  REQUIRE(reader.failure());
  CHECK(reader.failure()->code == Code::gzip_truncated);
  CHECK(reader.failure()->place.game == 2);
}

TEST_CASE("files are opened by their bytes, not their names; what is not there is told") {
  CHECK(open_games("/nowhere/games.pgn").fault().code == Code::cannot_open);
  CHECK(open_games("/").fault().code == Code::is_a_directory);
  CHECK(open_games(KAIROS_TEST_DIR "/data/pgn/odd-games.pgn").ok());
  const std::string path = KAIROS_SOURCE_DIR "/../shared/data/pgn/events/Interzonal1964.pgn.gz";
  if (!std::filesystem::exists(path)) {
    WARN("left out: no open data at " << path);
    return;
  }
  auto source = open_games(path);
  REQUIRE(source.ok());
  base::FaultList faults;
  Reader reader(**source, path, faults);
  Game game;
  while (reader.next(game)) {
  }
  CHECK(reader.games() == 276);  // shared/data/README.md
  CHECK_FALSE(reader.failure());
}
