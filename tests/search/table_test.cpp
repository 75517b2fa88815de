#include "table.hpp"

#include <catch2/catch.hpp>
#include <random>
#include <vector>

using namespace kairos;
using rules::Key;
using rules::Move;
using search::Bound;
using search::Found;
using search::no_score;
using search::Score;
using search::Table;

namespace {

// The smallest table: a single cluster, so that all keys compete for the same five places.
constexpr std::size_t one_cluster = 0;
constexpr std::size_t places = 5;
const Move some_move = Move::normal(rules::e2, rules::e4);
const Move other_move = Move::normal(rules::g1, rules::f3);

// Keys that differ in their lower half, by which a table tells positions of one cluster apart.
Key key_of(std::size_t n) {
  return 0xABCD'0000'0000'0001 + static_cast<Key>(n);
}

void store(Table& table, Key key, int depth, Bound bound = Bound::lower, bool pv = false,
           Move move = some_move) {
  table.store(key, move, 10 * depth, depth, depth, bound, pv);
}

// Fills the cluster with entries of the given depths.
void fill(Table& table, const std::vector<int>& depths) {
  for (std::size_t i = 0; i < depths.size(); ++i) store(table, key_of(i), depths[i]);
}

std::vector<std::size_t> missing(const Table& table, std::size_t count) {
  std::vector<std::size_t> gone;
  for (std::size_t i = 0; i < count; ++i) {
    if (!table.probe(key_of(i)).hit) gone.push_back(i);
  }
  return gone;
}

}  // namespace

TEST_CASE("what was stored of a position is found again", "[table]") {
  constexpr unsigned seed = 20240618;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  Table table(std::size_t{1} << 16);
  for (int i = 0; i < 2000; ++i) {
    const Key key = random();
    const auto move = Move::from_raw(static_cast<std::uint16_t>(1 + random() % 0xFFFF));
    const Score score = static_cast<Score>(random() % 64001) - 32000;
    const Score evaluation = static_cast<Score>(random() % 40001) - 20000;
    const int depth = static_cast<int>(random() % 129) - 1;
    const auto bound = static_cast<Bound>(1 + random() % 3);
    const bool pv = random() % 2 == 0;
    CHECK_FALSE(table.probe(key).hit);
    table.store(key, move, score, evaluation, depth, bound, pv);
    const Found found = table.probe(key);
    CHECK(found.hit);
    CHECK(found.move == move);
    CHECK(found.score == score);
    CHECK(found.evaluation == evaluation);
    CHECK(found.depth == depth);
    CHECK(found.bound == bound);
    CHECK(found.was_pv == pv);
  }
  table.store(1, {}, 0, no_score, -1, Bound::none, false);
  const Found bare = table.probe(1);
  CHECK(bare.hit);
  CHECK(bare.score == no_score);
  CHECK(bare.evaluation == no_score);
  CHECK_FALSE(bare.move);
  table.clear();
  CHECK_FALSE(table.probe(1).hit);
}

TEST_CASE("a mate found at one ply is as far away when met at another", "[table]") {
  Table table(one_cluster);
  for (const int found_at : {0, 1, 7, 60, 126}) {
    for (const int met_at : {0, 2, 9, 61, 126}) {
      for (const int plies : {0, 1, 2, 17, 126}) {
        INFO("found at " << found_at << ", met at " << met_at << ", mate in " << plies);
        const Score win = search::mate_in_plies(found_at + plies);
        table.store(1, some_move, search::to_table(win, found_at), 0, 1, Bound::exact, false);
        CHECK(search::from_table(table.probe(1).score, met_at) ==
              search::mate_in_plies(met_at + plies));
        const Score loss = search::mated_in_plies(found_at + plies);
        table.store(1, some_move, search::to_table(loss, found_at), 0, 1, Bound::exact, false);
        CHECK(search::from_table(table.probe(1).score, met_at) ==
              search::mated_in_plies(met_at + plies));
      }
    }
  }
  for (const Score s : {0, 1, -1, search::max_evaluation, -search::max_evaluation}) {
    CHECK(search::from_table(search::to_table(s, 30), 5) == s);
  }
  CHECK(search::from_table(no_score, 5) == no_score);
}

TEST_CASE("a bound decides only windows that it lies outside of", "[table]") {
  struct Case {
    Bound bound;
    Score score;
    bool decided;  // for the window 10..20
  };
  const Case cases[] = {
      {Bound::none, 30, false}, {Bound::exact, 5, true},   {Bound::exact, 15, true},
      {Bound::exact, 25, true}, {Bound::lower, 19, false}, {Bound::lower, 20, true},
      {Bound::lower, 25, true}, {Bound::upper, 11, false}, {Bound::upper, 10, true},
      {Bound::upper, 5, true},  {Bound::lower, 5, false},  {Bound::upper, 25, false},
  };
  for (const Case& c : cases) {
    INFO("bound " << static_cast<int>(c.bound) << " score " << c.score);
    CHECK(search::decides(c.bound, c.score, 10, 20) == c.decided);
  }
}

TEST_CASE("the least worth goes first: shallow before deep, old before new, others before pv",
          "[table]") {
  Table table(one_cluster);
  SECTION("five positions fit, the sixth takes the place of the shallowest") {
    fill(table, {7, 3, 9, 5, 8});
    CHECK(missing(table, places).empty());
    store(table, key_of(5), 1);
    CHECK(missing(table, 6) == std::vector<std::size_t>{1});
    store(table, key_of(6), 2);
    CHECK(missing(table, 7) == std::vector<std::size_t>{1, 5});
  }
  SECTION("each search that went by costs three plies of depth") {
    fill(table, {4, 9, 9, 9, 9});
    table.next_generation();
    store(table, key_of(1), 6);  // seen again, now shallower than the others but young
    for (std::size_t i = 2; i < places; ++i) store(table, key_of(i), 6);
    table.next_generation();
    fill(table, {3});            // as old as the search itself: worth 3, like the others' 6 - 3
    store(table, key_of(5), 0);  // of equals the first goes
    CHECK(missing(table, 6) == std::vector<std::size_t>{0});
  }
  SECTION("an old deep entry loses against young shallow ones") {
    fill(table, {12, 2, 2, 2, 2});
    for (int i = 0; i < 4; ++i) table.next_generation();
    for (std::size_t i = 1; i < places; ++i) store(table, key_of(i), 1);
    store(table, key_of(5), 0);
    CHECK(missing(table, 6) == std::vector<std::size_t>{0});
  }
  SECTION("ages are told apart over thirty searches, past the number's turn too") {
    for (int turn = 0; turn < 40; ++turn) {
      table.clear();
      for (int i = 0; i < turn; ++i) table.next_generation();
      fill(table, {100, 11, 11, 11, 11});
      for (int i = 0; i < 30; ++i) table.next_generation();
      for (std::size_t i = 1; i < places; ++i) store(table, key_of(i), 11);
      store(table, key_of(5), 0);
      INFO("started in generation " << turn);
      CHECK(missing(table, 6) == std::vector<std::size_t>{0});
    }
  }
  SECTION("an entry of the principal variation counts two plies more") {
    for (std::size_t i = 0; i < places; ++i) store(table, key_of(i), 6);
    store(table, key_of(0), 5, Bound::exact, true);
    store(table, key_of(5), 0);
    CHECK(missing(table, 6) == std::vector<std::size_t>{1});
  }
}

TEST_CASE("of the same position the better result stays, and a move once known", "[table]") {
  Table table(one_cluster);
  store(table, 1, 10, Bound::lower, false, some_move);
  SECTION("much shallower bounds of the same search leave all but the move") {
    store(table, 1, 6, Bound::upper, false, other_move);
    CHECK(table.probe(1).depth == 10);
    CHECK(table.probe(1).score == 100);
    CHECK(table.probe(1).bound == Bound::lower);
    CHECK(table.probe(1).move == other_move);
  }
  SECTION("three plies less is no reason to keep it") {
    store(table, 1, 7, Bound::upper);
    CHECK(table.probe(1).depth == 7);
    CHECK(table.probe(1).bound == Bound::upper);
  }
  SECTION("an exact score is worth more than depth") {
    store(table, 1, 1, Bound::exact);
    CHECK(table.probe(1).depth == 1);
  }
  SECTION("a later search starts afresh") {
    table.next_generation();
    store(table, 1, 1, Bound::upper);
    CHECK(table.probe(1).depth == 1);
  }
  SECTION("without a move the one known is kept") {
    store(table, 1, 12, Bound::upper, false, {});
    CHECK(table.probe(1).depth == 12);
    CHECK(table.probe(1).move == some_move);
  }
  store(table, 2, 1);
  CHECK(table.probe(1).hit);  // the position takes one place only
  store(table, 3, 1);
  store(table, 4, 1);
  store(table, 5, 1);
  CHECK(table.probe(1).hit);
}

TEST_CASE("a table holds what its size allows, and no less than one cluster", "[table]") {
  constexpr unsigned seed = 20240619;
  std::mt19937_64 random(seed);
  INFO("seed " << seed);
  for (const std::size_t bytes : {0U, 1U, 64U, 127U, 128U, 1000U, 64U * 1024, 100'000U}) {
    Table table(bytes);
    const std::size_t room = std::max<std::size_t>(1, bytes / 64) * places;
    std::vector<Key> keys(4 * room);
    for (Key& key : keys) {
      key = random();
      store(table, key, 1);
    }
    std::size_t held = 0;
    for (const Key key : keys) held += table.probe(key).hit ? 1 : 0;
    INFO(bytes << " bytes");
    CHECK(held <= room);
    CHECK(held >= room * 95 / 100);  // a few clusters get fewer keys than they have places
  }
}

TEST_CASE("positions are told apart as far as half a key and the place can", "[table]") {
  constexpr Key key = 0x1234'5678'9ABC'DEF0;
  Table small(one_cluster);
  store(small, key, 3);
  for (int bit = 0; bit < 32; ++bit) {
    INFO("bit " << bit);
    CHECK_FALSE(small.probe(key ^ Key{1} << bit).hit);
  }
  // The upper bits only choose the cluster: in a single one nothing else is known of them. That is
  // why a move found has to be checked for legality.
  for (int bit = 32; bit < 64; ++bit) CHECK(small.probe(key ^ Key{1} << bit).hit);
  Table large(std::size_t{1} << 20);  // 2^14 clusters: 14 more bits
  store(large, key, 3);
  for (int bit = 64 - 14; bit < 64; ++bit) {
    INFO("bit " << bit);
    CHECK_FALSE(large.probe(key ^ Key{1} << bit).hit);
  }
}
