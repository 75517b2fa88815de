// The lists of a season by their definitions (habits/season.hpp), each as a table of small studies
// whose figures are invented.
#include <catch2/catch.hpp>

#include "kairos/study/expectation.hpp"

#include "support/seasons.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

Moment winning(Moment m) {
  m.best_score = m.played_score = won;
  return m;
}

struct Case {
  std::string what;
  std::vector<Study> games;
  std::string wanted;
};

void check(const habits::List habits::Season::*list, const std::vector<Case>& cases) {
  for (const Case& c : cases) {
    INFO(c.what);
    const habits::Season season = season_of(numbered(c.games));
    CHECK(places(season, season.*list) == c.wanted);
    CHECK((season.*list).all == (season.*list).entries.size());
  }
}

}  // namespace

TEST_CASE("the costliest decisions are the player's verified ones, by what each alone cost") {
  const std::vector<Case> cases = {
      {"none", {game("1-0", {})}, ""},
      {"the opponent's are not the player's", {game("1-0", {swing(3, level, lost)})}, ""},
      {"the costliest first, of all games",
       {game("0-1", {swing(2, level, worse), swing(6, worse, lost)}),
        game("0-1", {swing(4, level, lost)})},
       "1:4 0:6 0:2"},
      {"a slide counts by its costliest move, at that move",
       {game("0-1", {slide(8, better, level, worse, lost), swing(4, level, -60)})},
       "0:8 0:4"},
      {"the turn of a lost game counts", {game("0-1", {fell(Kind::turn, 4, level, -60)})}, "0:4"},
      {"what cost nothing is asked, found or avoided is no cost",
       {game("0-1", {ask(Kind::only_move, 2, false, 900), trap(4, lost),
                     fell(Kind::claim, 6, level, lost)})},
       ""},
      {"one decision once, though two moments tell of it",
       {game("0-1", {swing(4, level, lost), slide(4, better, level, worse, lost)})},
       "0:4"},
      {"resigned by the player in a level position",
       {game("0-1", {fell(Kind::ended_early, 20, level, lost)})},
       "0:20"},
      {"resigned by the opponent", {game("1-0", {fell(Kind::ended_early, 20, level, won)})}, ""},
      {"a draw agreed by the player, who stood better",
       {game("1/2-1/2", {fell(Kind::ended_early, 20, won, level)})},
       "0:20"},
      {"a draw agreed by the opponent, who stood better",
       {game("1/2-1/2", {fell(Kind::ended_early, 20, lost, level)})},
       ""},
  };
  check(&habits::Season::costliest, cases);
}

TEST_CASE("a find is an only move or quiet win that was played and that at most half would play") {
  const std::vector<Case> cases = {
      {"found and missed, own and the opponent's",
       {game("1-0", {ask(Kind::only_move, 2, true, 900), ask(Kind::only_move, 3, true, 900),
                     ask(Kind::only_move, 4, false, 900), ask(Kind::quiet_win, 6, true, 900)})},
       "0:2 0:6"},
      {"the rarest first",
       {game("1-0", {ask(Kind::only_move, 2, true, 4000), ask(Kind::quiet_win, 4, true, 100)}),
        game("1-0", {ask(Kind::only_move, 6, true, 2000)})},
       "0:4 1:6 0:2"},
      {"half of the players, and one more",
       {game("1-0", {ask(Kind::only_move, 2, true, 5000), ask(Kind::only_move, 4, true, 5001)})},
       "0:2"},
      {"how many find it was not asked", {game("1-0", {ask(Kind::only_move, 2, true, -1)})}, ""},
      {"one decision once",
       {game("1-0", {ask(Kind::only_move, 2, true, 900), ask(Kind::quiet_win, 2, true, 900)})},
       "0:2"},
  };
  check(&habits::Season::finds, cases);
}

TEST_CASE("another move as good as the best is no find of the best") {
  Study study = game("1-0", {ask(Kind::quiet_win, 2, true, 900)});
  study.moments[0].best = other_move();
  CHECK(season_of({study}).finds.entries.empty());
}

TEST_CASE("a trap avoided is told by what the tempting move would have cost") {
  const std::vector<Case> cases = {
      {"own ones, the worst first",
       {game("1-0", {trap(2, worse), trap(3, lost), trap(4, lost)})},
       "0:4 0:2"},
      {"two in one position once", {game("1-0", {trap(2, worse), trap(2, lost)})}, "0:2"},
  };
  check(&habits::Season::traps, cases);
}

TEST_CASE("a win let slip: won at the player's turn, not won in the end, by what let it go") {
  const std::vector<Case> cases = {
      {"drawn", {game("1/2-1/2", {swing(4, won, level)})}, "0:4"},
      {"lost, later", {game("0-1", {swing(4, won, level), swing(8, level, lost)})}, "0:4"},
      {"won all the same", {game("1-0", {swing(4, won, level)})}, ""},
      {"without a result", {game("*", {swing(4, won, level)})}, ""},
      {"better is not won", {game("1/2-1/2", {swing(4, better, lost)})}, ""},
      {"won twice: the last time",
       {game("1/2-1/2", {swing(4, won, level), swing(5, level, lost), swing(8, won, better)})},
       "0:8"},
      {"won, and still won after it", {game("1/2-1/2", {swing(4, 1500, won)})}, ""},
      {"won by the opponent's error, let slip by the first own one behind it, from better",
       {game("1/2-1/2", {swing(3, level, lost), swing(6, better, level), swing(8, level, lost)})},
       "0:6"},
      {"won by the opponent's error, then level already",
       {game("1/2-1/2", {swing(3, level, lost), swing(6, level, lost)})},
       ""},
      {"from better to better is no letting go",
       {game("1/2-1/2", {swing(3, level, lost), swing(6, 160, better), swing(8, better, worse)})},
       "0:8"},
      {"won by an only move that was found",
       {game("0-1", {winning(ask(Kind::only_move, 2, true, 900)), swing(6, better, level)})},
       "0:6"},
      {"better is let go before it was won",
       {game("0-1", {swing(2, better, level), winning(ask(Kind::only_move, 6, true, 900))})},
       ""},
      {"a slide of the opponent's wins from its last move on",
       {game("0-1", {slide(5, level, level, worse, lost), swing(6, better, level),
                     swing(8, better, level)})},
       "0:8"},
      {"the opponent's win", {game("0-1", {swing(5, won, level)})}, ""},
      {"by a slide, from its first move to its last",
       {game("1/2-1/2", {slide(8, won, better, 60, level)})},
       "0:8"},
      {"by agreeing to a draw",
       {game("1/2-1/2", {fell(Kind::ended_early, 20, won, level)})},
       "0:20"},
      {"the games that gave most points away first",
       {game("1/2-1/2", {swing(4, won, level)}), game("0-1", {swing(6, won, lost)})},
       "1:6 0:4"},
  };
  check(&habits::Season::wins_let_slip, cases);
}

TEST_CASE("a loss saved is the opponent's win let slip, with the player's answer") {
  const std::vector<Case> cases = {
      {"drawn", {game("1/2-1/2", {swing(5, won, level)})}, "0:5"},
      {"lost all the same", {game("0-1", {swing(5, won, level)})}, ""},
      {"without a result", {game("*", {swing(5, won, level)})}, ""},
      {"lost by an own error, saved by what the opponent did later",
       {game("1-0", {swing(4, level, lost), swing(7, better, level)})},
       "0:7"},
      {"the player was never lost", {game("1-0", {swing(5, better, lost)})}, ""},
      {"the answer was found",
       {game("1-0", {swing(5, won, level), ask(Kind::only_move, 6, true, 9000)})},
       "0:5+6"},
      {"the answer was missed",
       {game("1-0", {swing(5, won, level), ask(Kind::only_move, 6, false, 900)})},
       "0:5"},
      {"won before drawn",
       {game("1/2-1/2", {swing(5, won, level)}), game("1-0", {swing(7, won, lost)})},
       "1:7 0:5"},
      {"the last time",
       {game("1/2-1/2", {swing(5, won, level), swing(6, level, lost), swing(9, won, level)})},
       "0:9"},
  };
  check(&habits::Season::losses_saved, cases);
}

TEST_CASE("the last place where it was won stands with the decision that let it go") {
  const std::vector<Study> games = {
      game("1/2-1/2", {swing(3, level, lost), swing(6, better, level)})};
  CHECK(season_of(games).wins_let_slip.entries == std::vector<habits::Entry>{{0, 6, 4, -1}});
}

TEST_CASE("with the other colour everything is seen from the other side") {
  const std::vector<Study> games = {
      game("1/2-1/2", {swing(4, won, level), ask(Kind::only_move, 5, true, 900)})};
  const habits::Season season = habits::look_back(FakeSource(games), {opponent});
  CHECK(season.wins_let_slip.entries.empty());
  CHECK(season.losses_saved.entries == std::vector<habits::Entry>{{0, 4, 4, 5}});
  CHECK(season.finds.entries == std::vector<habits::Entry>{{0, 5}});
}

TEST_CASE("a list shows ten and counts all, and only the studies shown are loaded again") {
  std::vector<Study> games;
  for (int i = 0; i < 30; ++i) games.push_back(game("0-1", {swing(4, level, lost + i)}));
  const FakeSource source(numbered(games));
  const habits::Season season = habits::look_back(source, {player});
  CHECK(season.costliest.all == 30);
  REQUIRE(season.costliest.entries.size() == habits::most_entries);
  CHECK(places(season, season.costliest) == "0:4 1:4 2:4 3:4 4:4 5:4 6:4 7:4 8:4 9:4");
  CHECK(season.studies.size() == 10);
  CHECK(source.loads == 40);
}

TEST_CASE("games are counted by their results, for the player, and what is open with them") {
  Study black = game("0-1", {});
  std::swap(black.facts.white, black.facts.black);
  Study strangers = game("1-0", {});
  strangers.facts.white = "Cedar, Kim";
  Study both = game("1-0", {});
  both.facts.black = player;
  const habits::Season season = season_of({game("1-0", {}), black, game("0-1", {}), strangers, both,
                                           game("1/2-1/2", {}), game("*", {})});
  CHECK(season.games == 5);
  CHECK(season.won == 2);
  CHECK(season.drawn == 1);
  CHECK(season.lost == 1);
  CHECK(season.open_places == 0 + 1 + 2 + 5 + 6);
}
