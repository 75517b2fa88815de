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
  p.solve_rates = {3000, 4000, 5000, 6000};
  p.difficulty = 3;
  p.game = game;
  p.ply = ply;
  return p;
}

// Made for the tests: only keys and pawns matter.
constexpr std::string_view fork_fen = "r3k3/8/8/3N4/8/8/5PPP/6K1 w q - 0 1";
constexpr std::string_view same_pawns = "4k2r/8/8/3N4/8/8/5PPP/5K2 w k - 0 1";
constexpr std::string_view other_pawns = "r3k3/p7/8/3N4/8/8/5PPP/6K1 w q - 0 1";

// Of games of their own, with keys of their own; alike in all else.
std::vector<Puzzle> six_puzzles() {
  std::vector<Puzzle> puzzles;
  for (const char* key : {"Nc7+", "Nf6+", "Nb6", "Nc3", "Ne3", "Nf4"}) {
    puzzles.push_back(puzzle_at(fork_fen, key, puzzles.size() + 1, 30));
  }
  return puzzles;
}

// The games of the puzzles, in the order of the set.
std::vector<std::uint64_t> games_of(const std::vector<Puzzle>& set) {
  std::vector<std::uint64_t> games;
  for (const Puzzle& p : set) games.push_back(p.game);
  return games;
}

std::uint64_t first_game(const std::vector<Puzzle>& puzzles, int level) {
  return puzzle::arrange(puzzles, 0, level).front().game;
}

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

TEST_CASE("of neighbours in one game the better stays: each gives the other away") {
  const Puzzle one = puzzle_at(fork_fen, "Nc7+", 1, 40);
  Puzzle near = puzzle_at(other_pawns, "Nf6+", 1, 41);
  near.tries.resize(2);
  CHECK(puzzle::arrange({one, near}) == std::vector{near});
  near.ply = 48;
  CHECK(puzzle::arrange({one, near}).size() == 2);
  near.ply = 41;
  near.game = 2;
  CHECK(puzzle::arrange({one, near}).size() == 2);
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
  p.avoided = support::move(p.position, "Nc7+");
  CHECK(puzzle::id_of(p) == "g12-m23w-whynot");
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

TEST_CASE("what fits the level stands before what nearly all or nearly none there would find") {
  std::vector<Puzzle> puzzles = six_puzzles();
  puzzles.resize(3);
  puzzles[0].solve_rates = {9000, 9500, 9900, 10'000};  // plain to all
  puzzles[1].solve_rates = {4000, 8000, 9500, 9900};    // fits the lowest
  puzzles[2].solve_rates = {0, 200, 1500, 4500};        // fits the highest
  CHECK(first_game(puzzles, 1600) == 2);
  CHECK(first_game(puzzles, 2800) == 3);
  CHECK(first_game(puzzles, 600) == 2);  // the nearest known counts
  CHECK(first_game(puzzles, 3400) == 3);
}

TEST_CASE("within the fitting find rates all are equal, and outside a little is worth a little") {
  const auto with_rate = [](std::uint64_t game, int rate) {
    Puzzle p = puzzle_at(fork_fen, game == 1 ? "Nc7+" : "Nf6+", game, 30);
    p.solve_rates = {rate, rate, rate, rate};
    return p;
  };
  // Equal ones stand by their place in the run: the first comes first though the other is nearer
  // to the middle.
  for (const int rate : {1000, 7000}) {
    CHECK(first_game({with_rate(1, rate), with_rate(2, 4000)}, 2000) == 1);
  }
  for (const int rate : {900, 8000, 10'000, 0}) {
    CHECK(first_game({with_rate(1, rate), with_rate(2, 4000)}, 2000) == 2);
  }
  CHECK(first_game({with_rate(1, 200), with_rate(2, 800)}, 2000) == 2);
  CHECK(first_game({with_rate(1, 9500), with_rate(2, 8000)}, 2000) == 2);
}

TEST_CASE("a try counts by how many of the level would choose it") {
  std::vector<Puzzle> puzzles = six_puzzles();
  puzzles.resize(2);
  for (Puzzle& p : puzzles) p.tries.resize(1);
  puzzles[0].tries[0].shares = {200, 200, 200, 5000};
  puzzles[1].tries[0].shares = {5000, 4000, 300, 300};
  CHECK(first_game(puzzles, 1600) == 2);
  CHECK(first_game(puzzles, 2800) == 1);
}

TEST_CASE("a clear reward, certainty and a quiet win are each worth something") {
  const auto second_is_first = [](const auto& change) {
    std::vector<Puzzle> puzzles = six_puzzles();
    puzzles.resize(2);
    for (Puzzle& p : puzzles) p.reward = puzzle::Reward::advantage;
    change(puzzles[1]);
    return first_game(puzzles, 2000) == 2;
  };
  CHECK(second_is_first([](Puzzle& p) { p.reward = puzzle::Reward::material; }));
  CHECK(second_is_first([](Puzzle& p) { p.mate_moves = 2; }));
  CHECK(second_is_first([](Puzzle& p) { p.second_score = -300; }));
  CHECK(second_is_first([](Puzzle& p) { p.kind = Kind::quiet_win; }));
  CHECK_FALSE(second_is_first([](Puzzle& p) { p.reward = puzzle::Reward::save; }));
  CHECK_FALSE(second_is_first([](Puzzle& p) { p.reward = puzzle::Reward::mate; }));  // not proved
  CHECK_FALSE(second_is_first([](Puzzle& p) { p.kind = Kind::only_move; }));
}

TEST_CASE("of so many as are asked for each game gives one before any gives a second") {
  std::vector<Puzzle> puzzles = six_puzzles();
  for (std::size_t i = 0; i < 6; ++i) {
    puzzles[i].game = i < 4 ? 1 : i - 2;  // four of the first game, one each of 2 and 3
    puzzles[i].ply = 10 * static_cast<int>(i);
    if (i < 4) puzzles[i].kind = Kind::quiet_win;  // better
  }
  CHECK(games_of(puzzle::arrange(puzzles, 3)) == std::vector<std::uint64_t>{1, 2, 3});
  CHECK(games_of(puzzle::arrange(puzzles, 5)) == std::vector<std::uint64_t>{1, 2, 3, 1, 1});
  CHECK(puzzle::arrange(puzzles, 50).size() == 6);
  // Of all there is no such rule: far better ones of one game stand before a poor one of another.
  for (std::size_t i = 4; i < 6; ++i) puzzles[i].solve_rates = {};
  for (std::size_t i = 0; i < 4; ++i) puzzles[i].mate_moves = 2;
  for (std::size_t i = 0; i < 4; ++i)
    puzzles[i].tries.resize(4, {{}, 0, {}, {2500, 2500, 2500, 2500}});
  CHECK(games_of(puzzle::arrange(puzzles)) == std::vector<std::uint64_t>{1, 1, 1, 1, 2, 3});
}

TEST_CASE("what is like the last picks waits: by motif, phase, player, kind, difficulty") {
  // The third differs from the first in one thing; without it the second comes second.
  const auto third_is_second = [](const auto& change) {
    std::vector<Puzzle> puzzles = six_puzzles();
    puzzles.resize(3);
    for (Puzzle& p : puzzles) {
      p.motifs = {study::Motif::fork};
      p.game_label = "Rosin, Erik - Bell " + std::to_string(p.game) + ", Club Open";
    }
    change(puzzles[2]);
    return games_of(puzzle::arrange(puzzles, 3)) == std::vector<std::uint64_t>{1, 3, 2};
  };
  CHECK_FALSE(third_is_second([](Puzzle&) {}));
  CHECK(third_is_second([](Puzzle& p) { p.motifs = {study::Motif::pin}; }));
  CHECK(third_is_second([](Puzzle& p) { p.motifs.clear(); }));
  CHECK(third_is_second([](Puzzle& p) { p.difficulty = 2; }));
  CHECK(third_is_second([](Puzzle& p) { p.kind = Kind::only_move; }));
  CHECK(third_is_second([](Puzzle& p) { p.game_label = "Amber - Birch, Club Open"; }));
  CHECK(third_is_second([](Puzzle& p) {
    p.position = support::position("rnbqk3/8/8/3N4/8/8/5PPP/1NBQ2KR w q - 0 20");
  }));
  // The same player with other colours is the same player; another first motif behind the same
  // does not set a puzzle off.
  CHECK_FALSE(third_is_second([](Puzzle& p) { p.game_label = "Amber - Rosin, E., Club Open"; }));
  CHECK_FALSE(third_is_second([](Puzzle& p) { p.motifs.push_back(study::Motif::pin); }));
}

TEST_CASE("of more than can be kept those stay that fit the level") {
  std::vector<Puzzle> puzzles = six_puzzles();
  puzzles[4].solve_rates = {5000, 9900, 9900, 9900};
  puzzles[5].solve_rates = {9900, 9900, 9900, 9900};
  for (std::size_t i = 0; i < 4; ++i) puzzles[i].solve_rates = {0, 0, 3000, 5000};
  puzzle::keep_best(puzzles, 1, 1600);
  CHECK(games_of(puzzles) == std::vector<std::uint64_t>{5});
}

TEST_CASE("surnames are read out of the label of a game") {
  using rules::black, rules::white;
  const auto both = [](std::string_view label) {
    return std::pair{std::string(puzzle::surname_in(label, white)),
                     std::string(puzzle::surname_in(label, black))};
  };
  using Names = std::pair<std::string, std::string>;
  CHECK(both("Aronov, Pavel - Bellini, Gia, Club Open, round 3") == Names{"Aronov", "Bellini"});
  CHECK(both("Amber Stone - Birch") == Names{"Amber Stone", "Birch"});
  CHECK(both("Al-Amin - Birch, Open - A, round 1") == Names{"Al-Amin", "Birch"});
  CHECK(both("? - Birch, Club") == Names{"", "Birch"});
  CHECK(both("Weekly study") == Names{"", ""});
  CHECK(both("A - B - C, Club") == Names{"", ""});  // whose name has the dash is not known
}
