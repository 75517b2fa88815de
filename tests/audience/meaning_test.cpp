// What is meant by the moves of a message: votes, refusals, reports, questions, corrections.
#include "kairos/audience/meaning.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/text.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

using namespace kairos;
using namespace kairos::audience;
using namespace kairos::rules;
using base::Code;

namespace {

constexpr const char* board = "r4rk1/pp3ppp/3p1n2/4p3/2N5/4P3/PBP1QPPP/4R1NK w - - 0 1";

struct Row {
  const char* text;
  const char* vote;  // and what follows on it; "": none
};
const Row rows[] = {
#include "meaning_lines.inc"
};

std::string vote(const Position& p, const char* text) {
  std::string moves;
  for (const std::string& san : to_san(p, read_meant(p, text).line.moves)) {
    moves += (moves.empty() ? "" : " ") + san;
  }
  return moves;
}

}  // namespace

TEST_CASE("What is meant by a line of chat is told by the rules of meaning.cpp") {
  const Position p = *parse_fen(board);
  int count = 0;
  for (const Row& row : rows) {
    INFO(row.text);
    CHECK(vote(p, row.text) == row.vote);
    ++count;
  }
  CHECK(count >= 100);
}

TEST_CASE("Whose move is spoken of is told by the side to move") {
  const Position black = *parse_fen("4k3/8/8/3p4/4P3/8/8/4K3 b - - 0 1");
  CHECK(vote(black, "dxe4 is bad for white") == "dxe4");
  CHECK(vote(black, "dxe4 is bad for black").empty());
  CHECK(vote(black, "if white plays d4 then dxe4") == "dxe4");
  CHECK(vote(black, "if black plays d4") == "d4");
}

TEST_CASE("A line whose moves are none of them meant is told from talk and from illegal moves") {
  const Position p = *parse_fen(board);
  CHECK(read_meant(p, "not a4").names_unmeant);
  CHECK_FALSE(read_meant(p, "good morning").names_unmeant);
  CHECK_FALSE(read_meant(p, "a4").names_unmeant);
  CHECK(read_meant(p, "he played a4").line.refused.problem == Code::not_a_move);
  CHECK(read_meant(p, "Rh8").line.refused.problem != Code::not_a_move);
  CHECK(read_meant(p, "Rf1 no wait Rh8").line.refused.problem != Code::not_a_move);
}

TEST_CASE("With the solver's own moves of a known line the replies may be left out of a vote") {
  const Position p = *parse_fen("8/8/5k2/8/8/8/8/RR4K1 w - - 0 1");
  std::vector<Move> known;
  Position next = p;
  for (const char* san : {"Ra5", "Kg6", "Rb6", "Kg7"}) {
    known.push_back(*parse_san(next, san));
    next.play(known.back());
  }
  CHECK(read_meant(p, "not Rb5, Ra5 then Rb6", known).line.moves.size() == 3);
}

TEST_CASE("Whatever the words are mixed to, the moves meant are legal one after the other") {
  const Position p = *parse_fen(board);
  std::vector<std::string_view> words;
  for (const Row& row : rows) {
    for (const std::string_view word : base::fields(row.text)) words.push_back(word);
  }
  constexpr unsigned seed = 16;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  int votes = 0;
  for (int i = 0; i < 20'000; ++i) {
    std::string text;
    for (auto n = random() % 30; n > 0; --n)
      text += std::string(words[random() % words.size()]) + ' ';
    const Meant meant = read_meant(p, text);
    Position position = p;
    for (const Move move : meant.line.moves) {
      MoveList legal;
      legal_moves(position, legal);
      INFO(text);
      REQUIRE(std::find(legal.begin(), legal.end(), move) != legal.end());
      position = position.after(move);
    }
    if (!meant.line.moves.empty()) ++votes;
    if (!meant.line.moves.empty()) CHECK_FALSE(meant.names_unmeant);
  }
  CHECK(votes > 1000);
}
