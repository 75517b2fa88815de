#include "kairos/habits/find.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <string>

using namespace kairos;
using habits::Decision;
using habits::TopicId;

namespace {

// As in real games studied at `light`: 40 games of eight tournaments had 37 decisions a side and
// game and an error rate of 0.07, 20 games of Linares1994.pgn at `steady` 39 and 0.06. Forty
// circumstances in eight groups: each decision is in one of the five of each group, as a move has
// one colour, one phase, one piece.
constexpr int groups = 8, in_group = 5;
constexpr std::array<int, in_group> percent_of{30, 25, 20, 15, 10};
constexpr int games = 200, decisions_a_game = 37;
constexpr double base_rate = 0.065;

struct Simulation {
  std::mt19937_64 random;
  habits::Topics topics;

  explicit Simulation(std::uint64_t seed) : random(seed) {
    for (int i = 0; i < groups * in_group; ++i) {
      topics.id_of("circumstance " + std::to_string(i), habits::TopicKind::circumstance);
    }
  }

  double uniform() { return static_cast<double>(random() >> 11) * 0x1.0p-53; }

  std::vector<TopicId> circumstances() {
    std::vector<TopicId> ids;
    for (int group = 0; group < groups; ++group) {
      int at = static_cast<int>(random() % 100), i = 0;
      while (at >= percent_of[static_cast<std::size_t>(i)])
        at -= percent_of[static_cast<std::size_t>(i++)];
      ids.push_back(static_cast<TopicId>(group * in_group + i));
    }
    return ids;
  }

  // Errors come twice as often in each of `doubled`.
  std::vector<Decision> decisions(const std::vector<TopicId>& doubled) {
    std::vector<Decision> all;
    for (int game = 0; game < games; ++game) {
      for (int i = 0; i < decisions_a_game; ++i) {
        Decision d;
        d.place = {static_cast<std::uint32_t>(game), i};
        d.topics = circumstances();
        double rate = base_rate;
        for (const TopicId id : doubled) {
          if (std::find(d.topics.begin(), d.topics.end(), id) != d.topics.end()) rate *= 2;
        }
        d.error = uniform() < rate;
        d.cost = d.error ? 0.2 : 0;
        all.push_back(std::move(d));
      }
    }
    return all;
  }
};

void find_planted(int runs) {
  int both = 0, false_habits = 0, habits_named = 0;
  for (int run = 0; run < runs; ++run) {
    Simulation s(static_cast<std::uint64_t>(1000 + run));
    const auto first = static_cast<TopicId>(s.random() % (in_group * groups));
    TopicId second = first;
    while (second / in_group == first / in_group) {
      second = static_cast<TopicId>(s.random() % (in_group * groups));
    }
    const auto player = s.decisions({first, second}), field = s.decisions({});
    const habits::FoundHabits found = habits::find(player, field, s.topics, games);
    const auto& ids = found.habit_topics;
    both +=
        std::count(ids.begin(), ids.end(), first) + std::count(ids.begin(), ids.end(), second) == 2;
    false_habits += static_cast<int>(std::count_if(
        ids.begin(), ids.end(), [&](TopicId id) { return id != first && id != second; }));
    habits_named += static_cast<int>(ids.size());
  }
  WARN("both found in " << both << " of " << runs << " runs; " << false_habits << " of "
                        << habits_named << " habits named were not planted");
  CHECK(both >= runs * 9 / 10);
  CHECK(false_habits <= habits_named / 10);
}

void find_none(int runs) {
  int named = 0, strengths = 0;
  for (int run = 0; run < runs; ++run) {
    Simulation s(static_cast<std::uint64_t>(5000 + run));
    const auto player = s.decisions({}), field = s.decisions({});
    const habits::FoundHabits found = habits::find(player, field, s.topics, games);
    named += found.habits.habits.empty() ? 0 : 1;
    strengths += found.habits.strengths.empty() ? 0 : 1;
  }
  WARN("a habit named in " << named << " of " << runs << " runs, a strength in " << strengths);
  CHECK(named <= runs / 10);
  CHECK(strengths <= runs / 10);
}

}  // namespace

TEST_CASE("two habits of a doubled rate among forty circumstances are found, false ones are rare") {
  find_planted(40);
}
TEST_CASE("two habits of a doubled rate among forty circumstances, often", "[.long]") {
  find_planted(200);
}

TEST_CASE("a player like the field has a habit named in at most one run of ten") {
  find_none(60);
}
TEST_CASE("a player like the field, often", "[.long]") {
  find_none(300);
}

TEST_CASE("examples are errors of the habit they stand under, of different games, dearest first") {
  Simulation s(77);
  auto player = s.decisions({3});
  const auto field = s.decisions({});
  for (Decision& d : player) {
    if (d.error) d.cost = 0.1 + s.uniform() / 2;
    d.year = 2000 + static_cast<int>(d.place.game % 20);
  }
  const habits::FoundHabits found = habits::find(player, field, s.topics, games);
  REQUIRE_FALSE(found.habit_topics.empty());
  REQUIRE(found.habit_topics.front() == 3);
  const habits::Habit& habit = found.habits.habits.front();
  REQUIRE(habit.examples.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    const habits::Example& e = habit.examples[i];
    const auto at = std::find_if(player.begin(), player.end(),
                                 [&](const Decision& d) { return d.place == e.place; });
    REQUIRE(at != player.end());
    CHECK(at->error);
    CHECK(std::find(at->topics.begin(), at->topics.end(), TopicId{3}) != at->topics.end());
    if (i > 0) CHECK(habit.examples[i - 1].cost >= e.cost);
    if (i > 0) CHECK(habit.examples[i - 1].place.game != e.place.game);
  }
  // Every decision falls into one span of years.
  std::uint64_t decisions = 0, errors = 0;
  for (const habits::Years& years : habit.years) {
    decisions += years.rate.decisions;
    errors += years.rate.errors;
  }
  CHECK(habit.years.size() <= 8);
  CHECK(decisions == habit.player.decisions);
  CHECK(errors == habit.player.errors);
}

TEST_CASE("the order of decisions does not matter") {
  Simulation s(78);
  auto player = s.decisions({3, 12}), field = s.decisions({});
  const habits::FoundHabits found = habits::find(player, field, s.topics, games);
  std::shuffle(player.begin(), player.end(), s.random);
  std::shuffle(field.begin(), field.end(), s.random);
  const habits::FoundHabits again = habits::find(player, field, s.topics, games);
  CHECK(again.habit_topics == found.habit_topics);
  REQUIRE_FALSE(found.habits.habits.empty());
  CHECK(again.habits.habits.front().player == found.habits.habits.front().player);
}

TEST_CASE("a flaw is counted among the decisions that could have brought it") {
  habits::Topics topics;
  const TopicId ahead = topics.id_of("with an advantage", habits::TopicKind::circumstance);
  const TopicId slip = topics.id_of("letting it slip", habits::TopicKind::flaw, ahead);
  const auto some = [&](int with, int without, int slips) {
    std::vector<Decision> all;
    for (int i = 0; i < with + without; ++i) {
      Decision d;
      d.place = {static_cast<std::uint32_t>(i), 0};
      if (i < with) d.topics.push_back(ahead);
      d.error = i < slips || (i >= with && i % 10 == 0);
      if (i < slips) d.topics.push_back(slip);
      all.push_back(d);
    }
    return all;
  };
  // The stronger player has the advantage more often and lets it slip as often as anybody.
  const auto found = habits::find(some(4000, 1000, 400), some(1000, 4000, 100), topics, 100);
  CHECK(found.habits.habits.empty());
  // Twice as often.
  const auto doubled = habits::find(some(4000, 1000, 800), some(1000, 4000, 100), topics, 100);
  REQUIRE(doubled.habits.habits.size() >= 1);
  CHECK(doubled.habits.habits.front().player.share() == Approx(0.2));
}
