// Players against what is to be expected of them: chances, overall ratio and rating, habits.
#include "kairos/study/expectation.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "kairos/habits/statistics.hpp"

#include "simulated.hpp"
#include "support/games.hpp"

using namespace kairos;
using habits::Decision;
using habits::TopicId;
using test::SimulatedPlayers;

namespace {

constexpr std::size_t games = 60;

struct Found {
  int runs = 0, both = 0, one = 0, false_habits = 0, habits = 0, strengths = 0;
};

bool is_named(const std::vector<TopicId>& named, TopicId topic) {
  return std::ranges::find(named, topic) != named.end();
}

// How often two planted circumstances are both named.
Found planted(int runs) {
  Found found{.runs = runs};
  SimulatedPlayers players(31);
  for (int run = 0; run < runs; ++run) {
    const std::vector<TopicId> two = players.two_circumstances();
    const auto named =
        habits::find_by_expectation(players.player(games, two), players.topics(), games)
            .habit_topics;
    const bool first = is_named(named, two[0]), second = is_named(named, two[1]);
    found.both += first && second ? 1 : 0;
    found.one += first || second ? 1 : 0;
    found.habits += static_cast<int>(named.size());
    found.false_habits += static_cast<int>(named.size()) - (first ? 1 : 0) - (second ? 1 : 0);
  }
  return found;
}

// How often a plain player is said to have a habit.
Found plain(int runs, double swing) {
  Found found{.runs = runs};
  SimulatedPlayers players(32);
  for (int run = 0; run < runs; ++run) {
    const auto told =
        habits::find_by_expectation(players.player(games, {}, swing), players.topics(), games);
    found.habits += told.habits.habits.empty() ? 0 : 1;
    found.strengths += told.habits.strengths.empty() ? 0 : 1;
  }
  return found;
}

// As it was before there were chances: against as many decisions of a field.
Found planted_against_field(int runs) {
  Found found{.runs = runs};
  SimulatedPlayers players(31);
  for (int run = 0; run < runs; ++run) {
    const std::vector<TopicId> two = players.two_circumstances();
    const auto player = players.player(games, two), field = players.player(games, {});
    const auto named = habits::find(player, field, players.topics(), games).habit_topics;
    found.both += is_named(named, two[0]) && is_named(named, two[1]) ? 1 : 0;
  }
  return found;
}

// Of how many players the interval of the overall ratio holds what they were drawn with.
int covered(int runs, std::size_t games_of_each, double swing) {
  SimulatedPlayers players(33);
  int inside = 0;
  for (int run = 0; run < runs; ++run) {
    const auto e = habits::expectation_of(players.player(games_of_each, {}, swing));
    inside += e && e->interval.low <= 1 && e->interval.high >= 1 ? 1 : 0;
  }
  return inside;
}

Decision decision(study::ErrorChances chances, int rating = 0) {
  Decision d;
  d.chances = chances;
  d.rating = rating;
  return d;
}

}  // namespace

TEST_CASE("a chance lies between those of the ratings beside it, and stays beyond them") {
  const Decision d = decision({400, 300, 200, 100});
  CHECK(habits::log_odds_by_model(d, 2000) == Approx(std::log(0.3 / 0.7)));
  CHECK(habits::log_odds_by_model(d, 2100) == Approx(std::log(0.275 / 0.725)));
  CHECK(habits::log_odds_by_model(d, 2800) == Approx(std::log(0.1 / 0.9)));
  CHECK(habits::chance_of_error(d, 1200) == habits::chance_of_error(d, 1600));
  CHECK(habits::chance_of_error(d, 2900) == habits::chance_of_error(d, 2800));
  for (int rating = 1600; rating < 2800; rating += 50) {
    CHECK(habits::chance_of_error(d, rating) > habits::chance_of_error(d, rating + 50));
  }
  CHECK(habits::chance_of_error(d) == habits::chance_of_error(d, study::unrated));
  CHECK(habits::chance_of_error(decision({400, 300, 200, 100}, 2500)) ==
        habits::chance_of_error(d, 2500));
  for (const int chance : {0, study::chance_of}) {
    const double p = habits::chance_of_error(decision({chance, chance, chance, chance}), 2000);
    CHECK(p > 0);
    CHECK(p < 1);
  }
}

TEST_CASE("longer surveys find fewer errors, as far as that was measured") {
  CHECK(habits::by_effort(30'000) == 0);
  CHECK(habits::by_effort(8'000) == Approx(0.49));
  CHECK(habits::by_effort(200'000) == Approx(-0.31));
  CHECK(habits::by_effort(100) == habits::by_effort(8'000));
  CHECK(habits::by_effort(2'000'000) == habits::by_effort(200'000));
  for (std::uint64_t nodes = 8'000; nodes < 200'000; nodes += 4'000) {
    CHECK(habits::by_effort(nodes) > habits::by_effort(nodes + 4'000));
  }
}

TEST_CASE("a decision has the chances of its study, and what its circumstances add") {
  study::Study study;
  study.facts.white_elo = 2345;
  study.moves = support::line(study.start, "e4 e5");
  study.notes.resize(3);
  study::Note& note = study.notes[0];
  note.lines = {{0, support::line(study.start, "e4")}, {-20, support::line(study.start, "d4")}};
  note.nodes = 30'000;
  note.error_chances = {44, 40, 36, 34};
  habits::Topics topics;
  std::vector<Decision> decisions;
  habits::add_decisions(study, rules::white, 7, {}, topics, decisions);
  REQUIRE(decisions.size() == 1);
  const Decision& d = decisions.front();
  CHECK(d.rating == 2345);
  CHECK(d.chances == note.error_chances);
  double added = habits::by_gap() * (0.5 - study::expectation(-20));
  for (const TopicId topic : d.topics) {
    added += habits::log_odds_of(topics.all()[topic].words).value_or(0);
  }
  CHECK(d.log_odds == Approx(added));
  study.notes[0].nodes = 200'000;
  habits::add_decisions(study, rules::white, 8, {}, topics, decisions);
  CHECK(habits::chance_of_error(decisions[1]) < habits::chance_of_error(decisions[0]));
}

TEST_CASE("errors of all decisions are held against what was to be expected of the rating") {
  std::vector<Decision> decisions;
  for (std::uint32_t game = 0; game < 20; ++game) {
    for (int ply = 0; ply < 40; ++ply) {
      decisions.push_back(decision({400, 300, 200, 100}, 2200));
      decisions.back().place = {game, ply};
      decisions.back().error = ply % 8 == 0;
    }
  }
  Decision unknown;  // no chances: does not count
  unknown.error = true;
  decisions.push_back(unknown);
  const double expected = 800 * habits::chance_of_error(decision({400, 300, 200, 100}), 2200);
  const auto e = habits::expectation_of(decisions);
  REQUIRE(e);
  CHECK(e->errors == Approx(expected));
  CHECK(e->ratio == Approx(100 / expected));
  CHECK(e->rating == 2200);
  CHECK_FALSE(e->unrated);
  // The same in each game: nothing scatters.
  CHECK(e->interval.low == Approx(e->ratio));
  CHECK(e->interval.high == Approx(e->ratio));
  CHECK(e->low == e->estimate);
  const double there = habits::chance_of_error(decision({400, 300, 200, 100}), e->estimate);
  const bool at_the_end = e->estimate == 1600 || e->estimate == 2800;
  CHECK((at_the_end || there == Approx(1.0 / 8).margin(0.001)));
}

TEST_CASE("more errors are usual of a lower rating, and none of less than is told") {
  SimulatedPlayers players(5);
  std::vector<Decision> decisions = players.player(40, {});
  const auto usual = habits::expectation_of(decisions);
  REQUIRE(usual);
  for (Decision& d : decisions) d.error = d.error || d.place.ply % 9 == 0;
  const auto more = habits::expectation_of(decisions);
  REQUIRE(more);
  CHECK(more->ratio > usual->ratio);
  CHECK(more->estimate < usual->estimate);
  CHECK(more->low <= more->estimate);
  CHECK(more->estimate <= more->high);
  for (Decision& d : decisions) d.error = true;
  const auto all = habits::expectation_of(decisions);
  REQUIRE(all);
  CHECK(all->estimate == study::chance_ratings.front());
  for (Decision& d : decisions) d.error = d.place.game < 6 && d.place.ply == 0;
  const auto few = habits::expectation_of(decisions);
  REQUIRE(few);
  CHECK(few->estimate == study::chance_ratings.back());
}

TEST_CASE("what is expected does not depend on the order of decisions") {
  SimulatedPlayers players(6);
  std::vector<Decision> decisions = players.player(40, players.two_circumstances());
  const auto before = habits::find_by_expectation(decisions, players.topics(), 40);
  const auto ratio = habits::expectation_of(decisions);
  std::ranges::reverse(decisions);
  const auto after = habits::find_by_expectation(decisions, players.topics(), 40);
  const auto again = habits::expectation_of(decisions);
  REQUIRE(ratio);
  CHECK(again->ratio == ratio->ratio);
  CHECK(again->interval.low == ratio->interval.low);
  CHECK(after.habit_topics == before.habit_topics);
  REQUIRE(after.habits.habits.size() == before.habits.habits.size());
  for (std::size_t i = 0; i < after.habits.habits.size(); ++i) {
    CHECK(after.habits.habits[i].expected == before.habits.habits[i].expected);
    CHECK(after.habits.habits[i].adjusted == before.habits.habits[i].adjusted);
  }
}

TEST_CASE("a player who errs more everywhere has no habit, but a worse ratio") {
  SimulatedPlayers players(7);
  std::vector<Decision> decisions = players.player(60, {});
  for (Decision& d : decisions) {
    const double chance = habits::chance_of_error(d);
    d.error = players.share() < habits::so_many_times(chance, 2.2);
  }
  CHECK(habits::find_by_expectation(decisions, players.topics(), 60).habits.habits.empty());
  CHECK(habits::expectation_of(decisions)->interval.low > 1);
}

TEST_CASE("the clock and what only verified moments tell are left to the field") {
  habits::Topics topics;
  const TopicId late =
      topics.id_of("with less than a tenth of the time left", habits::TopicKind::circumstance);
  const TopicId motif = topics.id_of("allowing the motif: fork", habits::TopicKind::motif);
  std::vector<Decision> decisions;
  for (std::uint32_t i = 0; i < 2000; ++i) {
    decisions.push_back(decision({200, 200, 200, 200}, 2000));
    decisions.back().place = {i / 40, static_cast<int>(i % 40)};
    if (i % 5 == 0) decisions.back().topics.push_back(late);
    decisions.back().error = i % 5 == 0;
    if (i % 5 == 0) decisions.back().topics.push_back(motif);
  }
  CHECK(habits::find_by_expectation(decisions, topics, 50).habits.circumstances == 0);
}

TEST_CASE("two doubled circumstances are found in sixty games, in most of few runs") {
  const Found found = planted(12);
  CHECK(found.both >= 8);
  CHECK(found.false_habits <= found.habits / 5);
  CHECK(plain(12, 0).habits <= 3);
  CHECK(covered(60, games, 0) >= 53);
}

TEST_CASE("two doubled circumstances of sixty games: how often they are found", "[.long]") {
  const Found found = planted(200), field = planted_against_field(200);
  const Found none = plain(200, 0), moody = plain(200, 0.7);
  WARN("both found in " << found.both << ", one in " << found.one << " of 200 runs; "
                        << found.false_habits << " of " << found.habits
                        << " habits named were not planted; against a field both in "
                        << field.both);
  WARN("a plain player: a habit in " << none.habits << ", a strength in " << none.strengths
                                     << " of 200 runs; with good and bad days in " << moody.habits
                                     << ", " << moody.strengths);
  CHECK(found.both >= 160);
  CHECK(none.habits <= 20);
  CHECK(moody.habits <= 20);
}

TEST_CASE("the interval of the overall ratio holds the truth as often as it says", "[.long]") {
  for (const auto& [of, swing] :
       std::vector<std::pair<std::size_t, double>>{{12, 0.0}, {30, 0.0}, {60, 0.0}, {60, 0.7}}) {
    const int inside = covered(500, of, swing);
    WARN("with " << of << " games and days " << swing << " apart: in " << inside << " of 500");
    CHECK(inside >= 465);
    CHECK(inside <= 485);
  }
}
