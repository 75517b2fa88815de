// The reader against its slow twin, on files made by chance, on every kind of piece at every
// alignment, and on the sample files.
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "kairos/base/files.hpp"

#include "pgn/reading.hpp"
#include "support/pgn_made_files.hpp"
#include "support/pgn_twin.hpp"

using namespace kairos;
using namespace kairos::pgn;

namespace {

void check_made_files(std::uint64_t from, std::uint64_t to) {
  for (std::uint64_t seed = from; seed < to; ++seed) {
    const std::string text = test::made_file(seed);
    if (test::twin_difference(text).empty()) continue;
    INFO("seed " << seed << ": " << test::twin_difference(text));
    FAIL(test::smallest_difference(text));
  }
}

// What stands between two moves of a game, with a part as long as one likes.
struct Piece {
  std::string before;
  std::string unit;
  std::string after;
  std::size_t most = whole;  // bytes of units
};

const std::vector<Piece> pieces = {
    {"\n%", "h4 ", "\n"},
    {"\n", "%h4\n", ""},
    {"{", "words h4 ", "}"},
    {"{a", "\r\n", "b}", 60'000},  // see open_differences
    {"{a { b } ", "", "{c}}"},
    {";", "h4 ", "\r\n"},
    {"", " ", ""},
    {"", "\n", ""},
    {"", "\r", ""},
    {"", "\r\n", ""},
    {"", " \n\t", ""},
    {"$00", "", "19"},
    {"", "$1 ", ""},
    {"(", "Nc3 a6 ", ")"},
    {"(Nc3 ", "(Nd4) ", "a6)"},
    {"", "(e4 ) ", ""},
    {"", "w", ""},
    {"", "&", ""},
    {"1-0\n\n[White \"", "h4 ", "\"]\n\n1. e4"},
    {"1-0\n\n[White \"", "\\\"", "\"] 1. e4"},
    {"1-0\n\n[White \"x\"]\n", "[Black \"y\"]", "\n1. e4"},
    {"1-0\n\nRound ", "h4 ", "\n[White \"x\"]\n\n1. e4"},
    {"{not closed", " h4", "\n\n[Event \"x\"]\n\n1. e4"},
};

void check_pieces(std::size_t size, std::size_t shift) {
  for (const Piece& piece : pieces) {
    const std::string middle =
        piece.unit.empty() ? ""
                           : repeated(piece.unit, std::min(size, piece.most) / piece.unit.size());
    const std::string text = std::string(shift, ' ') + "1. e4 e5 2. Nf3 " + piece.before + middle +
                             piece.after + " Nc6 3. Bb5+ a6 1/2-1/2\n";
    INFO(piece.before << "... " << size << " bytes of " << piece.unit << " behind " << shift);
    if (!test::twin_difference(text).empty()) FAIL(test::smallest_difference(text));
  }
}

// What reader and twin are known to read differently, with why the twin is held to be right
// (numbers are leniencies of kairos/pgn/reader.hpp). Made files leave it out.
struct OpenDifference {
  std::string text;
  std::string why;
};

const std::vector<OpenDifference>& open_differences() {
  static const std::vector<OpenDifference> rows = {
      {"1. e4 { :-{ } e5 { a { b } c } *", "19: whether braces nest hangs on another comment"},
      {"1. e4 {" + repeated("a", 8190) + "{b} c} *", "19: ... and on where a piece of it ends"},
      {"1. e4 { a\n\n[My_Tag \"x\"]\n\n1. d4 *", "20: section 8.1.1 has underscores in names"},
      {"1. O-O+- *", "16 and 32: a sign glued to castling takes the move away"},
      {"1. e8=Q+- *", "16: a sign glued to a promotion is no part of the move"},
      {"1. e4+= *", "16: += alone is $14, glued it is check and $10"},
      {"1. e4=+ *", "16: =+ alone is $15, glued it is part of the move"},
      {"1. e4 \xC2\xBD\xE2\x80\x93\xC2\xBD", "25: one half with a dash"},
      {"1. d4 d5\n\n1 - 0", "25 and 28: the 1 of a result begins no game"},
      {"1. e4 0 - 1\n0 word", "25 and 26: ... and counts nothing"},
      {"1 - 0", "12 and 25: a game of nothing but a result"},
      {"1. d4 {a}1 - 0", "25: section 7: } ends a token"},
      {"1. \xCE\xA0"
       "e1 *",
       "32 and 33: half a Greek letter is no no-break space"},
      {"1. e4\x7F"
       "e5 *",
       "4: DEL is a control byte"},
      {"1. e4 e5\n\xC2\xA0\n1. d4 d5 *", "28 and 33: a line of no-break spaces is empty"},
      {"[A\xC2\xA0\"b\"] *", "9 and 33: a no-break space inside brackets"},
      {"[A\v\"b\"] *", "4 and 9: a control byte inside brackets"},
      {"[A" + std::string(70, ' ') + "\"b\"] *", "9: many blanks inside brackets"},
      {"1. e4 e5 1-0 (1... c5)\nd4 d5 0-1", "26 and 29: only a number takes a game up again"},
      {"1. e4 (1. d4 1-0) (", "21: a result inside a variation that is closed"},
      {"1. e4 ({lost}", "21 and 24: comments of a variation without moves and end"},
      {"1. e4 ($1 (1. c4) 1. d4) *", "23: a NAG in front of a variation in front of the move"},
      {"[A \"1\"]\n\n[A\n*", "9 and 11: one damaged tag is told once"},
      {"[A \"1\"]\n[B \"1\"]\n\n[A \"1\"]\n[C \"2\"]\n\n[A \"2\"]\n*",
       "10 and 11: C is the first game's"},
      {"2\n* 2", "7 and 26: a number of no game counts nothing"},
      {"2 {\n}\ne4 *", "7: lines are counted in text of no game"},
      {repeated("w", 1024) + "e4 *", "tokens.hpp: of a symbol too long all pieces are unknown"},
      {"1. e4 {a" + repeated("\n", 100'000) + "b} *", "comment_bytes: of a comment as it is kept"},
  };
  return rows;
}

}  // namespace

TEST_CASE("reader and twin read made files alike") {
  check_made_files(0, 10'000);
}

TEST_CASE("reader and twin read a hundred thousand made files alike", "[.long]") {
  check_made_files(10'000, 110'000);
}

TEST_CASE("of a hundred made files at most two are left out for an open difference") {
  int left_out = 0;
  for (std::uint64_t seed = 0; seed < 2000; ++seed) {
    left_out += test::meets_open_difference(test::made_file(seed)) ? 1 : 0;
  }
  CHECK(left_out <= 40);
}

TEST_CASE("reader and twin keep to the same bounds of a tag and of faults") {
  ReaderLimits limits;
  limits.tag_bytes = 20;
  limits.faults = 2;
  for (std::uint64_t seed = 0; seed < 2000; ++seed) {
    INFO("seed " << seed);
    REQUIRE(test::twin_difference(test::made_file(seed), true, limits) == "");
  }
}

TEST_CASE("reader and twin read every kind of piece at every alignment alike") {
  for (const std::size_t size : {0U, 3U, 63U, 64U, 65U, 700U}) {
    for (std::size_t shift = 0; shift < 66; ++shift) check_pieces(size, shift);
  }
}

TEST_CASE("reader and twin read pieces longer than any window at many alignments alike",
          "[.long]") {
  for (const std::size_t size : {4095U, 4096U, 4097U, 8191U, 8192U, 8193U}) {
    for (std::size_t shift = 0; shift < 66; shift += 3) check_pieces(size, shift);
  }
  for (const std::size_t size : {17'408U, 32'768U, 65'535U, 65'536U, 65'537U, 100'000U, 262'144U}) {
    for (std::size_t shift = 0; shift < 64; shift += 21) check_pieces(size, shift);
  }
}

TEST_CASE("reader and twin read the sample files alike") {
  for (const std::string name :
       {"annotated.pgn", "annotated-mainline.pgn", "odd-games.pgn", "comment-real.pgn",
        "Budapest1913.pgn", "crlf-WorldChamp1972.pgn", "backslash-Philidor.pgn"}) {
    INFO(name);
    const auto text = base::read_file(KAIROS_TEST_DIR "/data/pgn/" + name);
    REQUIRE(text.ok());
    CHECK(test::twin_difference(*text) == "");
  }
}

TEST_CASE("what reader and twin read differently is what is listed") {
  // When a row fails the reader has been mended: take the row out, and what tells of it in
  // pgn_naive_games.cpp (`open_difference`); or let pgn_made_files.cpp make what it does not.
  for (const OpenDifference& row : open_differences()) {
    INFO(row.why);
    CHECK((test::twin_difference(row.text, false) != ""));
  }
}
