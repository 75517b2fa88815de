// The reader beyond its leniencies (leniency_test.cpp): places, accounting, limits, failures.
#include "kairos/pgn/reader.hpp"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "kairos/base/text.hpp"

#include "pgn/reading.hpp"

using namespace kairos;
using namespace kairos::pgn;
using base::Code;
using base::Place;

namespace {

struct Placed {
  std::string text;
  Code code;
  Place place;
};

// Lines, columns and games counted by hand.
const std::vector<Placed>& placed_faults() {
  static const std::vector<Placed> rows = {
      {"1. e4 & *", Code::token_unknown, {"test.pgn", 1, 7, 1}},
      {"1. e4\n e5 & *", Code::token_unknown, {"test.pgn", 2, 5, 1}},
      {"1. e4\r\n\r\n e5 & *", Code::token_unknown, {"test.pgn", 3, 5, 1}},
      {"1. e4\r\r e5 & *", Code::token_unknown, {"test.pgn", 3, 5, 1}},
      {"1. e4 {a\nb\r\nc\rd} & *", Code::token_unknown, {"test.pgn", 4, 4, 1}},
      {"1. e4 ; x\n% y\n&*", Code::token_unknown, {"test.pgn", 3, 1, 1}},
      {"[White \"A\"]\n[Black\n*", Code::tag_damaged, {"test.pgn", 2, 1, 1}},
      {"[White \"A\"]\n\n*\n\nwords\n[White \"B\"]\n\n*", Code::stray_text, {"test.pgn", 5, 1, 0}},
      {"[Site \"Z\"] *\n[White \"B\"]\n1. e4 )",
       Code::variation_stray_close,
       {"test.pgn", 3, 7, 2}},
      {"[Site \"Z\"] *\n[White \"B\"]\n(1. e4 *", Code::variation_unclosed, {"test.pgn", 3, 9, 2}},
      {"[Site \"Z\"] *\n\n [White \"B\"]\n1. e4", Code::result_missing, {"test.pgn", 3, 2, 2}},
      {"1. e4 {\n\n[Event \"B\"]\n*", Code::comment_unclosed, {"test.pgn", 1, 7, 1}},
      {"1. e4 $999 *", Code::nag_unknown, {"test.pgn", 1, 7, 1}},
      {"[Event \"A\"]\n[Site \"B\"]\n[Event \"A\"]\n*", Code::tag_repeated, {"test.pgn", 3, 1, 1}},
      {"[Result \"1-0\"]\n0-1", Code::result_differs, {"test.pgn", 1, 1, 1}},
      {"1. e4 1-0 0-1", Code::result_differs, {"test.pgn", 1, 11, 1}},
      {"1.\xE2\x80\xA6"
       "e5 1ewrong *",
       Code::token_unknown,
       {"test.pgn", 1, 10, 1}},
  };
  return rows;
}

class BreakingSource final : public base::ByteSource {
 public:
  explicit BreakingSource(std::string_view text) : text_(text) {}
  base::Result<std::size_t> read(std::span<char> room) override {
    if (text_.empty()) return base::Fault{Code::cannot_read, "gone", {}};
    const std::size_t n = text_.copy(room.data(), room.size());
    text_.remove_prefix(n);
    return n;
  }

 private:
  std::string_view text_;
};

}  // namespace

TEST_CASE("a fault tells file, line, column and game") {
  for (const Placed& row : placed_faults()) {
    // The same behind so much text that the window has slid, and in small pieces.
    const std::string before =
        repeated("[White \"A\"]\n\n1. e4 {" + std::string(90, 'x') + "} *\n", 5000);
    const Place far = {row.place.file, row.place.line + 15000, row.place.column,
                       row.place.game == 0 ? 0 : row.place.game + 5000};
    for (const bool is_far : {false, true}) {
      const Reading reading = read_all(is_far ? before + row.text : row.text, is_far ? 999 : whole);
      INFO(row.text << (is_far ? " far" : ""));
      bool told = false;
      for (const base::Fault& fault : reading.faults) {
        if (fault.code != row.code) continue;
        CHECK(base::describe(fault) ==
              base::describe({fault.code, fault.detail, is_far ? far : row.place}));
        told = true;
      }
      CHECK(told);
    }
  }
}

TEST_CASE("games and moves know their line and column") {
  const Reading reading = read_all("\n[White \"A\"]\n\n1. e4\n  e5 *\n\n  1. d4 *");
  REQUIRE(reading.games.size() == 2);
  const Game& game = reading.games[0];
  CHECK(game.place == Place{"test.pgn", 2, 1, 1});
  CHECK((game.nodes[1].line == 4 && game.nodes[1].column == 4));
  CHECK((game.nodes[2].line == 5 && game.nodes[2].column == 3));
  CHECK(reading.games[1].place == Place{"test.pgn", 7, 3, 2});
}

TEST_CASE("nodes link back and forth, and hold the moves of the text in its order") {
  const Reading reading = read_all("1. e4 (1. d4 d5 (1... Nf6)) (1. c4) 1... e5 *");
  const Game& game = reading.games.at(0);
  REQUIRE(game.nodes.size() == 7);
  std::string order;
  for (NodeId id = 1; id < game.nodes.size(); ++id)
    order += std::string(game.san_text(game.nodes[id])) + ' ';
  CHECK(order == "e4 d4 d5 Nf6 c4 e5 ");
  CHECK(game.nodes[0].first_child == 1);
  CHECK(game.nodes[1].next_sibling == 2);
  CHECK(game.nodes[2].next_sibling == 5);
  CHECK(game.nodes[3].next_sibling == 4);
  CHECK(game.nodes[6].parent == 1);
  CHECK(game.main_line() == std::vector<NodeId>{1, 6});
}

TEST_CASE("an empty file holds no game, and neither does one of blanks or words") {
  for (const std::string text :
       {"", "\n\n \t\r\n", "\xEF\xBB\xBF", "no games here\nat all\n", "% e4\n"}) {
    const Reading reading = read_all(text);
    INFO(text);
    CHECK(reading.games.empty());
    CHECK(reading.games_met == 0);
    CHECK_FALSE(reading.failure);
  }
}

TEST_CASE("UTF-16 is a failure that says so, with a byte order mark or without") {
  using namespace std::string_view_literals;
  for (const auto text : {"\xFF\xFE[\0E\0"sv, "\xFE\xFF\0[\0E"sv, "[\0E\0v\0"sv, "\0[\0E\0v"sv}) {
    const Reading reading = read_all(text);
    CHECK(reading.games.empty());
    REQUIRE(reading.failure);
    CHECK(reading.failure->code == Code::encoding_unsupported);
    CHECK(reading.failure->place.file == "test.pgn");
  }
}

TEST_CASE("when the source breaks the games before are given and the failure is told") {
  BreakingSource source("[White \"A\"]\n\n1. e4 *\n\n[White \"B\"]\n\n1. d4 d");
  base::FaultList faults;
  Reader reader(source, "test.pgn", faults);
  Game game;
  REQUIRE(reader.next(game));
  CHECK_FALSE(reader.failure());
  REQUIRE(reader.next(game));
  CHECK(game.tag("White") == "B");
  CHECK_FALSE(reader.next(game));
  REQUIRE(reader.failure());
  CHECK(reader.failure()->code == Code::cannot_read);
  CHECK(reader.failure()->place.game == 2);
}

TEST_CASE("a reader that uses a game's storage again gives what a fresh game would hold") {
  const std::string text =
      "[White \"A long name that needs room of its own\"]\n[Black \"B\"]\n\n1. e4 {one} (1. d4 $3) "
      "e5 2. Nf3 *\n\n"
      "[White \"C\"]\n\n1. c4 1-0\n\n[Site \"D\"]\n\n0-1\n";
  base::MemorySource source(text);
  base::FaultList faults;
  Reader reader(source, "test.pgn", faults);
  Game game;
  std::string all;
  while (reader.next(game)) all += summary(game) + '\n';
  std::string fresh;
  for (const Game& g : read_all(text).games) fresh += summary(g) + '\n';
  CHECK(all == fresh);
  CHECK(reader.bytes() == text.size());
}

TEST_CASE("a comment over the limit is cut between characters, and told") {
  ReaderLimits limits;
  limits.comment_bytes = 10;
  const Reading reading =
      read_all("1. e4 {123456789\xC3\xA4\xC3\xA4} e5 {0123456789} *", whole, limits);
  CHECK(summary(reading) == "e4 {123456789} e5 {0123456789} *");
  CHECK(reading.codes() == std::vector<Code>{Code::comment_cut});
}

TEST_CASE("moves, depth, tags and comments of one game are limited, and the next game is read") {
  struct Limited {
    ReaderLimits limits;
    std::string text;
    std::string games;
    Code code;
  };
  const auto with = [](auto member, std::size_t value) {
    ReaderLimits limits;
    limits.*member = value;
    return limits;
  };
  const std::string words(90, 'x');
  const std::vector<Limited> rows = {
      {with(&ReaderLimits::plies, 3), "1. e4 e5 (c5) 2. Nf3 Nc6 {x} 3. Bb5 (3. d4) {y} $1 *",
       "e4 e5 (c5) Nf3 *", Code::game_too_long},
      {with(&ReaderLimits::variation_plies, 3),
       "1. e4 (1. d4 d5 (1... Nf6) 2. c4 {x} (2. Nf3)) 1... e5 {y} (1... c5 {z}) ({z}) 2. Nf3 *",
       "e4 (d4 d5 (Nf6)) e5 {y} Nf3 *", Code::game_too_long},
      {with(&ReaderLimits::depth, 2), "1. e4 (1. d4 (1. c4 (1. f4 (1. b4)) {x})) 1... e5 *",
       "e4 (d4) (c4 {x}) e5 *", Code::game_too_long},
      {with(&ReaderLimits::tags, 2), "[A \"1\"]\n[B \"2\"]\n[C \"3\"]\n[D \"4\"]\n*", "A=1 B=2: *",
       Code::game_too_long},
      {with(&ReaderLimits::game_comment_bytes, 200), "1. e4 {" + words + "} {y} {z} *",
       "e4 {" + words + "} *", Code::comment_cut},
  };
  for (const Limited& row : rows) {
    const Reading reading = read_all(row.text + "\n\n[White \"B\"]\n\n1. d4 *", whole, row.limits);
    CHECK(summary(reading) == row.games + " | White=B: d4 *");
    CHECK(reading.codes() == std::vector<Code>{row.code});
  }
}

TEST_CASE("many faults of one game are told as a number") {
  ReaderLimits limits;
  limits.faults = 3;
  const Reading reading = read_all("1. e4 & & & & & & *\n\n[White \"B\"]\n\n&\n*", whole, limits);
  REQUIRE(reading.faults.size() == 5);
  CHECK(reading.faults[3].detail == "3 more faults in this game");
  CHECK(reading.faults[4].place.game == 2);
}

TEST_CASE("text of tags and comments is given as UTF-8 whatever the bytes were") {
  const Reading reading = read_all("[Na\xEFve \"\xF6\"]\n\n1. e4 {\xC3\xB6 \xF6} *");
  const Game& game = reading.games.at(0);
  CHECK(game.tags.at(0).name == "Na\xC3\xAFve");
  CHECK(game.tags.at(0).value == "\xC3\xB6");
  CHECK(game.annotation_of(1)->comments.at(0) == "\xC3\x83\xC2\xB6 \xC3\xB6");
}

TEST_CASE("a line in front of the moves is one also behind many blanks, whatever the pieces") {
  // The answer hung on how much of the line the window still held: little where it has slid on,
  // which it does in small pieces when much is to come.
  for (const std::size_t blanks : {10U, 59U, 60U, 61U, 70U, 1000U, 300'000U}) {
    const std::string text = "[White \"A\"]\n" + std::string(blanks, ' ') +
                             "played at night\n1. e4 *" + std::string(40'000, '\n');
    const Reading at_once = read_all(text);
    INFO(blanks);
    CHECK(summary(at_once) == "White=A: e4 *");
    for (const std::size_t piece : {1U, 64U, 5000U}) {
      CHECK(read_all(text, piece).codes() == at_once.codes());
    }
  }
}

TEST_CASE("a tag of any length is told at most once, and no text of it is played") {
  // Rings around the bounds: what is kept of a value, and what a token holds.
  for (const std::size_t size :
       {8190U, 8192U, 8193U, 17'380U, 17'408U, 17'500U, 50'000U, 400'000U}) {
    for (const std::string value : {"x", "e4 ", "\xE4", "\"", "\xD0\x96"}) {
      const std::string text =
          "[Site \"" + repeated(value, size / value.size()) + "\"]\n[White \"A\"]\n\n1. d4 *\n";
      const Reading at_once = read_all(text);
      INFO(size << " of " << value);
      REQUIRE(at_once.games.size() == 1);
      const Game& game = at_once.games[0];
      CHECK(tree_of(game) == "d4");
      CHECK(game.tag("White") == "A");
      CHECK(game.tag("Site").size() <= ReaderLimits{}.tag_bytes);
      CHECK(game.tag("Site").size() + 4 > std::min(size, ReaderLimits{}.tag_bytes));
      CHECK((base::is_valid_utf8(game.tag("Site"))));
      const bool is_cut =
          game.tag("Site").size() < base::to_utf8(repeated(value, size / value.size())).size();
      CHECK(at_once.codes() == std::vector<Code>(is_cut ? 1 : 0, Code::tag_cut));
      CHECK(summary(read_all(text, 61)) == summary(at_once));
    }
  }
}
