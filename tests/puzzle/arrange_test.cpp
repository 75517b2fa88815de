// The order and the merging of a set of puzzles, on puzzles of random legal moves and figures.
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>
#include <tuple>

#include "kairos/puzzle/compose.hpp"

#include "support/random_studies.hpp"

using namespace kairos;
using puzzle::Puzzle;

namespace {

auto place_of(const Puzzle& p) {
  return std::make_tuple(p.game, p.ply, p.kind);
}

std::vector<Puzzle> random_puzzles(test::RandomStudies& random, std::size_t count) {
  std::vector<Puzzle> made;
  while (made.size() < count) {
    Puzzle p;
    p.position = random.position();
    p.line = random.line(p.position, 3);
    p.score = random.number(0, 900);
    p.second_score = random.number(-900, 0);
    p.difficulty = random.number(1, 5);
    p.game = made.size() + 1;
    p.ply = random.number(0, 80);
    if (!p.line.empty()) made.push_back(std::move(p));
  }
  return made;
}

}  // namespace

// A set of more than a few puzzles once crashed the sort (memory of too weak an alignment).
TEST_CASE("a large set is arranged, each puzzle kept once or merged into its twin") {
  constexpr std::uint64_t seed = 71;
  INFO("seed " << seed);
  test::RandomStudies random(seed);
  std::vector<Puzzle> puzzles = random_puzzles(random, 300);
  const std::vector<Puzzle> copy = puzzles;
  const std::size_t twins = 40;
  for (std::size_t i = 0; i < twins; ++i) {  // the same key in the same position, in another game
    puzzles.push_back(copy[i]);
    puzzles.back().game += 1000;
  }
  const std::vector<Puzzle> arranged = puzzle::arrange(puzzles);
  CHECK(arranged.size() <= copy.size());
  std::set<std::tuple<std::uint64_t, int, study::Kind>> places;
  for (const Puzzle& p : arranged) {
    CHECK(places.insert(place_of(p)).second);
    CHECK(std::find(puzzles.begin(), puzzles.end(), p) != puzzles.end());
  }
}

TEST_CASE("the arrangement does not depend on the order in which puzzles come") {
  constexpr std::uint64_t seed = 72;
  INFO("seed " << seed);
  test::RandomStudies random(seed);
  std::vector<Puzzle> puzzles = random_puzzles(random, 60);
  const std::vector<Puzzle> arranged = puzzle::arrange(puzzles);
  std::reverse(puzzles.begin(), puzzles.end());
  CHECK(puzzle::arrange(puzzles) == arranged);
}

TEST_CASE("a limit takes the first of the full arrangement") {
  constexpr std::uint64_t seed = 73;
  INFO("seed " << seed);
  test::RandomStudies random(seed);
  const std::vector<Puzzle> puzzles = random_puzzles(random, 40);
  std::vector<Puzzle> all = puzzle::arrange(puzzles);
  const std::vector<Puzzle> few = puzzle::arrange(puzzles, 5);
  REQUIRE(all.size() >= few.size());
  all.resize(few.size());
  CHECK(few.size() == 5);
  CHECK(few == all);
}
