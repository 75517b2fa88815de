#include "kairos/rules/fen.hpp"

#include <catch2/catch.hpp>
#include <cstdint>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "oracles/rules_naive.hpp"
#include "rules/random_games.hpp"

using namespace kairos;
using namespace kairos::rules;
using base::Code;

namespace {

struct Lenient {
  int leniency;  // its number in kairos/rules/fen.hpp
  const char* text;
  const char* read_as;
};

// Oddities as common practice has them.
const Lenient leniencies[] = {
    {1, "  4k3/8/8/8/8/8/8/4K3 \t w  -   - 3 7 ", "4k3/8/8/8/8/8/8/4K3 w - - 3 7"},
    {2, "4k3/8/8/8/8/8/8/4K3 b - -", "4k3/8/8/8/8/8/8/4K3 b - - 0 1"},
    {3, "4k3/8/8/8/4P3/8/8/4K3 b - e3 0 1", "4k3/8/8/8/4P3/8/8/4K3 b - - 0 1"},
    {3, "4k3/8/8/8/8/8/8/4K3 b - e3 0 1", "4k3/8/8/8/8/8/8/4K3 b - - 0 1"},
    {4, "r3k2r/8/8/8/8/8/8/R3K2R w qkQK - 0 1", "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1"},
    {4, "r3k2r/8/8/8/8/8/8/R3K2R w KKq - 0 1", "r3k2r/8/8/8/8/8/8/R3K2R w Kq - 0 1"},
    {4, "r3k3/8/8/8/8/8/8/4K2R w KQkq - 0 1", "r3k3/8/8/8/8/8/8/4K2R w Kq - 0 1"},
    {5, "4k3/8/8/8/8/8/8/4K3 w - - 0 0", "4k3/8/8/8/8/8/8/4K3 w - - 0 1"},
    {6, "r3k2r/8/8/8/8/8/8/R3K2R w HAha - 0 1", "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1"},
    {7, "4k3/8/8/8/8/8/8/4K3 w - - 12", "4k3/8/8/8/8/8/8/4K3 w - - 12 1"},
    {8, "4k3/8/8/8/8/8/8/4K3 w - - - -", "4k3/8/8/8/8/8/8/4K3 w - - 0 1"},
    {9, "4k3/8/8/8/8/8/8/4K3 B - - 0 1", "4k3/8/8/8/8/8/8/4K3 b - - 0 1"},
};

struct Bad {
  const char* text;
  std::vector<Code> codes;
};

const Bad bad[] = {
    {"", {Code::fen_fields}},
    {"4k3/8/8/8/8/8/8/4K3 w -", {Code::fen_fields}},
    {"4k3/8/8/8/8/8/8/4K3 w - - 0 1 x", {Code::fen_fields}},
    {"4k3/8/8/8/8/8/4K3 w - - 0 1", {Code::fen_board}},
    {"4k3/8/8/8/8/8/8/8/4K3 w - - 0 1", {Code::fen_board}},
    {"4k3/9/8/8/8/8/8/4K3 w - - 0 1", {Code::fen_board, Code::fen_board}},
    {"4k3/8/8/8/8/8/8/4K3P w - - 0 1", {Code::fen_board}},
    {"4k3/8/8/8/8/8/8/4X3 w - - 0 1", {Code::fen_board}},
    {"4k3/8/8/8/8/8/8/4K3 x - - 0 1", {Code::fen_side}},
    {"4k3/8/8/8/8/8/8/4K3 w KX - 0 1", {Code::fen_castling}},
    {"4k3/8/8/8/8/8/8/4K3 w - e 0 1", {Code::fen_en_passant}},
    {"4k3/8/8/8/8/8/8/4K3 w - - x 1", {Code::fen_counter}},
    {"4k3/8/8/8/8/8/8/4K3 w - - -5 1", {Code::fen_counter}},
    {"4k3/8/8/8/8/8/8/4K3 w - - 0 1000000", {Code::fen_counter}},
    {"1r2k2r/8/8/8/8/8/8/1R2K2R w HBhb - 0 1",
     {Code::variant_unsupported, Code::variant_unsupported}},
    {"4k3/8/8/8/8/8/8/5K1R w H - 0 1", {Code::variant_unsupported}},
    {"8/8/8/8/8/8/8/4K3 w - - 0 1", {Code::king_count}},
    {"4k3/8/8/8/8/8/7/4K3 q X z9 a b",
     {Code::fen_board, Code::fen_side, Code::fen_castling, Code::fen_en_passant, Code::fen_counter,
      Code::fen_counter}},
};

}  // namespace

TEST_CASE("Each leniency of the FEN reader reads as it says") {
  std::set<int> numbers;
  for (const Lenient& row : leniencies) {
    INFO(row.leniency << ": " << row.text);
    const auto read = parse_fen(row.text);
    REQUIRE(read);
    CHECK(to_fen(*read) == row.read_as);
    numbers.insert(row.leniency);
  }
  CHECK(numbers == std::set<int>{1, 2, 3, 4, 5, 6, 7, 8, 9});
}

TEST_CASE("A bad FEN gives all its faults at once") {
  for (const Bad& row : bad) {
    INFO(row.text);
    const auto read = parse_fen(row.text);
    REQUIRE_FALSE(read);
    std::vector<Code> codes;
    for (const auto& fault : read.faults()) codes.push_back(fault.code);
    CHECK(codes == row.codes);
  }
}

// PGN standard, 16.1.4: the start position and the position after 1. e4 c5 2. Nf3; the en passant
// fields follow the rule of writing it only when a capture is legal.
TEST_CASE("The examples of the standard are read and written") {
  CHECK(*parse_fen(start_fen) == Position::start());
  CHECK(to_fen(Position::start()) == start_fen);
  Position p = Position::start();
  p.play(Move::normal(e2, e4));
  CHECK(to_fen(p) == "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1");
  p.play(Move::normal(c7, c5));
  CHECK(to_fen(p) == "rnbqkbnr/pp1ppppp/8/2p5/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2");
  p.play(Move::normal(g1, f3));
  CHECK(to_fen(p) == "rnbqkbnr/pp1ppppp/8/2p5/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2");
}

TEST_CASE("EPD fields are the first four of the FEN") {
  CHECK(to_epd_fields(Position::start()) == "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq -");
}

TEST_CASE("What is written is read back as the same position") {
  test::for_each_random_position(21, 120, [](const Position& p, const auto&, Move, auto&) {
    const auto read = parse_fen(to_fen(p));
    REQUIRE(read);
    REQUIRE(*read == p);
  });
}

TEST_CASE("A FEN with one character changed is refused or reads as a position that holds") {
  constexpr std::uint64_t seed = 22;
  INFO("seed " << seed);
  std::mt19937_64 random(seed);
  const std::string alphabet = "pnbrqkPNBRQK12345678/ wb-KQkqaehx039";
  int refused = 0, read = 0;
  for (int round = 0; round < 20'000; ++round) {
    std::string text = test::random_game_starts[random() % test::random_game_starts.size()];
    text[random() % text.size()] = alphabet[random() % alphabet.size()];
    const auto position = parse_fen(text);
    INFO(text);
    if (!position) {
      ++refused;
      continue;
    }
    ++read;
    REQUIRE(make_position(position->setup()).value() == *position);
    REQUIRE(parse_fen(to_fen(*position)).value() == *position);
  }
  CHECK(refused > 1000);
  CHECK(read > 1000);
}

TEST_CASE("However many faults a FEN has, the first are told and the number of the others") {
  const auto read = parse_fen(std::string(5'000, 'x') + " w - - 0 1");
  REQUIRE_FALSE(read);
  CHECK(read.faults().size() == most_fen_faults + 1);
  CHECK(read.fault().code == Code::fen_board);
  CHECK(read.faults().back().code == Code::more_faults);
  // The number of ranks, 5,000 letters, the number of squares.
  CHECK(read.faults().back().detail == "4,986 more");
  const auto castling = parse_fen("8/8/8/8/8/8/8/8 w " + std::string(100'000, 'b') + " - 0 1");
  REQUIRE_FALSE(castling);
  CHECK(castling.faults().size() == most_fen_faults + 1);
  const auto side = parse_fen("8/8/8/8/8/8/8/8 " + std::string(100'000, 'w') + " - - 0 1");
  REQUIRE_FALSE(side);
  CHECK(side.fault().detail.size() < 1'000);
}
