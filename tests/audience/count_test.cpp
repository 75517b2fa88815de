#include "kairos/audience/count.hpp"

#include <catch2/catch.hpp>

using namespace kairos;
using namespace kairos::audience;

TEST_CASE("the people and phrases that a tally keeps are bounded") {
  puzzle::Exercise exercise;
  exercise.puzzle.line = {rules::Move::normal(rules::e2, rules::e4)};
  exercise.keys = exercise.puzzle.line;
  Count count(exercise);
  for (std::size_t i = 0; i < most_people + 10; ++i) count.take(std::to_string(i) + ": e4");
  const Tally tally = count.tally();
  CHECK(tally.counts.people == most_people);
  CHECK(tally.counts.too_many == 10);
  CHECK(tally.rows.front().count == most_people);
}

TEST_CASE("rows come by the number of people, of equal ones the move that was said first") {
  puzzle::Exercise exercise;
  exercise.puzzle.line = {rules::Move::normal(rules::e2, rules::e4)};
  exercise.keys = exercise.puzzle.line;
  Count count(exercise);
  CHECK(count.take("anna: d4").is_new);
  count.take("bert: e4");
  count.take("cora: e4 e5");
  count.take("dora: Nf3");
  CHECK(count.take("Anna: e4").fate == Count::Fate::again);
  CHECK(count.take("emil: Ke2").fate == Count::Fate::refused);
  CHECK(count.take("emil: good luck").fate == Count::Fate::talk);
  CHECK_FALSE(count.take("emil: Nf3").is_new);
  const Tally tally = count.tally();
  REQUIRE(tally.rows.size() == 3);
  CHECK(tally.rows[0].move == rules::Move::normal(rules::e2, rules::e4));
  CHECK(tally.rows[0].is_key);
  CHECK(tally.rows[1].move == rules::Move::normal(rules::g1, rules::f3));
  CHECK(tally.rows[2].first.name == "anna");
  CHECK(tally.with_key.count == 2);
  CHECK(tally.refused.size() == 1);
  CHECK(tally.counts.lines == 8);
  CHECK(tally.counts.people == 5);
}

TEST_CASE("the first answer of a person counts, or the latest where that is asked") {
  puzzle::Exercise exercise;
  exercise.puzzle.line = {rules::Move::normal(rules::e2, rules::e4)};
  exercise.keys = exercise.puzzle.line;
  Count first(exercise), latest(exercise, Keep::latest);
  for (Count* count : {&first, &latest}) {
    count->take("anna: d4");
    count->take("bert: d4");
    count->take("cora: e4");
    count->take("anna: no wait, e4");
    count->take("anna: not e4");
    count->take("bert: d4 of course");
    count->take("bert: lol");
    count->take("dora: he played d4");
  }
  CHECK(first.tally().rows.front().count == 2);
  CHECK(first.tally().with_key.count == 1);
  CHECK(first.tally().counts.again == 4);
  CHECK(first.tally().counts.changed == 0);

  const Tally tally = latest.tally();
  REQUIRE(tally.rows.size() == 2);
  CHECK(tally.rows[0].move == rules::Move::normal(rules::e2, rules::e4));
  CHECK(tally.rows[0].count == 2);
  CHECK(tally.rows[0].first.name == "cora");  // anna came to it later
  CHECK(tally.rows[1].first.name == "bert");
  CHECK(tally.counts.people == 3);
  CHECK(tally.counts.changed == 1);
  CHECK(tally.counts.again == 1);
  CHECK(tally.counts.unmeant == 2);
  CHECK(tally.counts.talk == 1);
  CHECK(tally.counts.lines == 8);
}
