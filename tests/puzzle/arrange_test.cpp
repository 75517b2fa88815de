#include <catch2/catch.hpp>
#include <set>

#include "kairos/puzzle/compose.hpp"

#include "support/games.hpp"

using namespace kairos;
using puzzle::Puzzle;
using study::Kind;

namespace {

Puzzle puzzle_at(std::string_view fen, std::string_view line, std::uint64_t game, int ply) {
  Puzzle p;
  p.position = support::position(fen);
  p.line = support::line(p.position, line);
  p.score = 500;
  p.second_score = 0;
  p.difficulty = 3;
  p.game = game;
  p.ply = ply;
  return p;
}

// Made for the tests: only keys and pawns matter.
constexpr std::string_view fork_fen = "r3k3/8/8/3N4/8/8/5PPP/6K1 w q - 0 1";
constexpr std::string_view same_pawns = "4k2r/8/8/3N4/8/8/5PPP/5K2 w k - 0 1";
constexpr std::string_view other_pawns = "r3k3/p7/8/3N4/8/8/5PPP/6K1 w q - 0 1";

}  // namespace

TEST_CASE("the same key in the same structure stands in the set once, the better of the two") {
  Puzzle plain = puzzle_at(fork_fen, "Nc7+", 1, 40);
  Puzzle better = puzzle_at(same_pawns, "Nc7+", 2, 44);
  better.tries.resize(3);
  const Puzzle other = puzzle_at(other_pawns, "Nc7+", 3, 50);
  const auto set = puzzle::arrange({plain, better, other});
  REQUIRE(set.size() == 2);
  std::set<std::uint64_t> games;
  for (const Puzzle& p : set) games.insert(p.game);
  CHECK(games == std::set<std::uint64_t>{2, 3});
}

TEST_CASE("a position on another puzzle's solution is not a puzzle of its own") {
  const Puzzle whole = puzzle_at(fork_fen, "Nc7+ Kd7 Nxa8", 1, 40);
  Puzzle tail = whole;
  tail.position = whole.position.after(whole.line[0]).after(whole.line[1]);
  tail.line = {whole.line[2]};
  tail.ply = 42;
  CHECK(puzzle::arrange({tail, whole}).size() == 1);
  tail.game = 2;  // from another game it has its own story, and another key
  CHECK(puzzle::arrange({tail, whole}).size() == 2);
}

TEST_CASE(
    "the best come first, at most as many as asked for, in an order that input does not change") {
  std::vector<Puzzle> puzzles;
  const char* keys[] = {"Nc7+", "Nf6+", "Nb6", "Nc3", "Ne3", "Nf4"};
  for (std::size_t i = 0; i < 6; ++i) {
    Puzzle p = puzzle_at(fork_fen, keys[i], i + 1, 30);
    p.tries.resize(i % 4);
    p.kind = i % 2 == 0 ? Kind::swing : Kind::quiet_win;
    p.difficulty = 1 + static_cast<int>(i) % 5;
    puzzles.push_back(p);
  }
  const auto all = puzzle::arrange(puzzles);
  CHECK(all.size() == 6);
  std::vector<Puzzle> turned(puzzles.rbegin(), puzzles.rend());
  CHECK(puzzle::arrange(turned) == all);
  const auto three = puzzle::arrange(puzzles, 3);
  REQUIRE(three.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) CHECK(three[i] == all[i]);
  CHECK(all.front().kind == Kind::quiet_win);
  CHECK(puzzle::arrange({}).empty());
}

TEST_CASE("the name of a puzzle tells game, move and side, and sets off what was not played") {
  Puzzle p = puzzle_at("r3k3/8/8/3N4/8/8/5PPP/6K1 w q - 3 23", "Nc7+", 12, 44);
  CHECK(puzzle::id_of(p) == "g12-m23w");
  p.kind = Kind::trap;
  CHECK(puzzle::id_of(p) != "g12-m23w");
}

TEST_CASE("of more puzzles than can be kept the best stay, in whatever parts they come") {
  std::vector<Puzzle> all;
  for (int i = 0; i < 60; ++i) {
    all.push_back(puzzle_at(fork_fen, "Nc7+", static_cast<std::uint64_t>(i % 20), i));
    all.back().tries.resize(static_cast<std::size_t>(i * 7 % 5));
  }
  std::vector<Puzzle> at_once = all;
  puzzle::keep_best(at_once, 10);
  REQUIRE(at_once.size() == 10);
  for (const Puzzle& p : at_once) CHECK(p.tries.size() == 4);
  std::vector<Puzzle> by_parts;
  for (const Puzzle& p : all) {
    by_parts.push_back(p);
    puzzle::keep_best(by_parts, 10);
  }
  CHECK(by_parts == at_once);
}
