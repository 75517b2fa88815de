#include "kairos/batch/schedule.hpp"

#include <catch2/catch.hpp>

#include "support/temporary_folder.hpp"

using namespace kairos;
using batch::Schedule;
using batch::Task;
using study::Candidate;

namespace {

// Games of two moves, Ada against Gia and the other way round in turn.
struct Fixture {
  explicit Fixture(std::size_t games, batch::Part part = {})
      : ledger(std::move(*batch::Ledger::open(folder.path(), {"1", "e", 1, "s", part}, faults))) {
    input.files = {"a.pgn"};
    for (std::size_t i = 0; i < games; ++i) {
      const std::string names[] = {"Ada", "Gia"}, text = std::to_string(i);
      input.games.push_back({batch::key_of(text), i + 1, 0, 1, names[i % 2], names[(i + 1) % 2]});
      REQUIRE(ledger.put_game(batch::key_of(text), text).ok());
    }
    study.moves = {rules::Move::normal(rules::e2, rules::e4),
                   rules::Move::normal(rules::e7, rules::e5)};
    study.notes.resize(3);
    study.facts.result = "*";
  }

  void survey(std::size_t game, const std::vector<Candidate>& candidates) {
    REQUIRE(ledger.put_survey(input.games[game].key, study, candidates).ok());
  }
  void verify(std::size_t game, int ply) {
    batch::Findings findings;
    findings.ply = ply;
    REQUIRE(ledger.put_findings(input.games[game].key, findings).ok());
  }

  test::TemporaryFolder folder;
  base::FaultList faults;
  batch::Ledger ledger;
  batch::Input input;
  batch::Focus focus;
  study::Study study;
};

using Order = std::vector<std::pair<std::size_t, int>>;  // game and ply

Order candidates_in_order(Schedule& schedule) {
  Order order;
  while (const auto task = schedule.next()) {
    REQUIRE(task->what == Task::What::verify);
    for (const int ply : task->stretch.plies) order.emplace_back(task->game, ply);
    schedule.finish(*task);
  }
  return order;
}

}  // namespace

TEST_CASE("surveys come first and in order, then stretches of all games by promise") {
  Fixture f(3);
  Schedule schedule(f.input, f.ledger, f.focus);
  for (std::size_t game = 0; game < 3; ++game) {
    const auto task = schedule.next();
    REQUIRE(task);
    CHECK(task->what == Task::What::survey);
    CHECK(task->game == game);
  }
  CHECK_FALSE(schedule.next());
  CHECK_FALSE(schedule.is_over());  // surveys under way may bring candidates
  f.survey(0, {{1, 0.5}, {0, 0.2}});
  f.survey(1, {{0, 0.9}, {1, 0.5}});
  f.survey(2, {});
  for (std::size_t game = 0; game < 3; ++game) schedule.finish({Task::What::survey, game});
  CHECK(candidates_in_order(schedule) == Order{{1, 0}, {1, 1}, {0, 0}, {0, 1}});
  CHECK(schedule.is_over());
  CHECK(schedule.counts().verified == 4);
}

TEST_CASE("what the ledger holds already is not done again") {
  Fixture f(3);
  f.survey(1, {{0, 0.9}, {1, 0.5}});
  f.verify(1, 0);
  Schedule schedule(f.input, f.ledger, f.focus);
  CHECK(schedule.counts().surveyed == 1);
  CHECK(schedule.counts().verified == 1);
  for (const std::size_t game : {0u, 2u}) {
    const auto task = schedule.next();
    REQUIRE(task);
    CHECK(task->game == game);
    f.survey(game, {});
    schedule.finish(*task);
  }
  // The neighbour has its say again: results may not depend on where a run was cut.
  CHECK(candidates_in_order(schedule) == Order{{1, 0}, {1, 1}});
  CHECK(schedule.counts().verified == 2);
}

TEST_CASE("a part works on its own games") {
  Fixture f(5, {2, 2});
  Schedule schedule(f.input, f.ledger, f.focus);
  CHECK(schedule.counts().games == 2);
  CHECK(schedule.next()->game == 1);
  CHECK(schedule.next()->game == 3);
  CHECK_FALSE(schedule.next());
}

TEST_CASE("with a focus the player's decisions and the ends of their games are asked for") {
  Fixture f(2);
  f.focus.names = {"Ada"};
  f.survey(0, {{0, 0.9}, {1, 0.8}, {2, 0.7}});
  f.survey(1, {{0, 0.6}, {1, 0.5}, {2, 0.4}});
  Schedule schedule(f.input, f.ledger, f.focus);
  CHECK(schedule.counts().candidates == 4);
  // Their neighbours are looked at with them.
  CHECK(candidates_in_order(schedule) == Order{{0, 0}, {0, 1}, {0, 2}, {1, 0}, {1, 1}, {1, 2}});
  CHECK(schedule.counts().verified == 4);
}

TEST_CASE("candidates wait for the last survey, so that their order is the same every time") {
  Fixture f(2);
  Schedule schedule(f.input, f.ledger, f.focus);
  const auto first = schedule.next();
  const auto last = schedule.next();
  f.survey(0, {{0, 0.3}});
  schedule.finish(*first);
  CHECK_FALSE(schedule.next());
  CHECK_FALSE(schedule.is_over());
  f.survey(1, {});
  schedule.finish(*last);
  const auto third = schedule.next();
  REQUIRE(third);
  CHECK(third->what == Task::What::verify);
}

TEST_CASE("moves that many games share are not verified") {
  Fixture f(2);
  f.input.games[0].shared_plies = 1;
  f.survey(0, {{0, 0.9}, {1, 0.5}});
  f.survey(1, {{0, 0.4}});
  Schedule schedule(f.input, f.ledger, f.focus);
  CHECK(schedule.counts().candidates == 2);
  CHECK(candidates_in_order(schedule) == Order{{0, 0}, {0, 1}, {1, 0}});
}
