// The lists of a season by their definitions (habits/season.hpp), each as a table of small studies
// whose figures are invented; and how games fall into periods.
#include <catch2/catch.hpp>

#include "kairos/habits/look_back.hpp"
#include "kairos/study/expectation.hpp"

#include "support/games.hpp"

using namespace kairos;
using study::Kind, study::Moment, study::Study;

namespace {

constexpr const char* player = "Amber, Ida";
constexpr const char* opponent = "Birch, Jon";

// In centipawns of the side to move; by the curve 93 %, 70 %, 50 %, 30 %, 7 %.
constexpr search::Score won = 270, better = 87, level = 0, worse = -87, lost = -270;

// Not played in the games below.
rules::Move other_move() {
  return support::line(rules::Position::start(), "a3").front();
}

class FakeSource final : public habits::Source {
 public:
  explicit FakeSource(std::vector<Study> studies) : studies_(std::move(studies)) {}
  [[nodiscard]] std::size_t size() const override { return studies_.size(); }
  [[nodiscard]] Study load(std::size_t index) const override {
    ++loads;
    return studies_[index];
  }
  [[nodiscard]] std::vector<PuzzlePlace> puzzle_places() const override { return {}; }
  [[nodiscard]] std::uint64_t open_places(std::size_t index) const override { return index; }
  mutable std::size_t loads = 0;

 private:
  std::vector<Study> studies_;
};

// Ten moves of each side, the player White.
Study game(const std::string& result, std::vector<Moment> moments) {
  Study study;
  study.moves = support::line(study.start,
                              "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Nb8 "
                              "d4 Nbd7");
  study.notes.resize(study.moves.size() + 1);
  study.facts.white = player;
  study.facts.black = opponent;
  study.facts.result = result;
  for (Moment& m : moments) {
    const auto ply = static_cast<std::size_t>(m.ply);
    m.position = study::position_after(study, ply);
    if (ply < study.moves.size()) m.played = study.moves[ply];
    if (m.found) m.best = m.played;
  }
  study.moments = std::move(moments);
  return study;
}

Moment fell(Kind kind, int ply, search::Score best, search::Score played) {
  Moment m;
  m.kind = kind;
  m.ply = ply;
  m.best_score = m.second_score = best;
  m.played_score = played;
  return m;
}

Moment swing(int ply, search::Score best, search::Score played) {
  return fell(Kind::swing, ply, best, played);
}

// Of which the costliest step, the middle one, stands at `ply`.
Moment slide(int ply, search::Score from, search::Score best, search::Score played,
             search::Score to) {
  Moment m = fell(Kind::slide, ply, best, played);
  const rules::Position any = rules::Position::start();
  m.steps = {
      {ply - 2, any, {}, from, best}, {ply, any, {}, best, played}, {ply + 2, any, {}, played, to}};
  return m;
}

Moment ask(Kind kind, int ply, bool found, int find_rate) {
  Moment m = fell(kind, ply, level, level);
  m.found = found;
  m.find_rate = find_rate;
  m.second_score = lost;
  return m;
}

Moment trap(int ply, search::Score tempting) {
  Moment m = fell(Kind::trap, ply, level, level);
  m.tempting = other_move();
  m.tempting_score = tempting;
  return m;
}

habits::Season season_of(std::vector<Study> studies) {
  return habits::look_back(FakeSource(std::move(studies)), {player});
}

// "0:4" for a decision of the first game of the table: in which study, after how many half-moves.
std::string places(const habits::Season& season, const habits::List& list) {
  std::string text;
  for (const habits::Entry& entry : list.entries) {
    const Study& study = season.studies.at(entry.study);
    text += (text.empty() ? "" : " ") + std::to_string(study.facts.number) + ":" +
            std::to_string(entry.ply);
    if (entry.answer_ply >= 0) text += "+" + std::to_string(entry.answer_ply);
  }
  return text;
}

std::vector<Study> numbered(std::vector<Study> studies) {
  for (std::size_t i = 0; i < studies.size(); ++i) studies[i].facts.number = i;
  return studies;
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

TEST_CASE(
    "a win let slip: won at the player's turn, not won in the end, by the last such decision") {
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

TEST_CASE("with the other colour everything is seen from the other side") {
  const std::vector<Study> games = {
      game("1/2-1/2", {swing(4, won, level), ask(Kind::only_move, 5, true, 900)})};
  const habits::Season season = habits::look_back(FakeSource(games), {opponent});
  CHECK(season.wins_let_slip.entries.empty());
  CHECK(season.losses_saved.entries == std::vector<habits::Entry>{{0, 4, 5}});
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

namespace {

struct Played {
  std::string event, date, result;
  int swings = 0;
};

std::vector<habits::Period> periods_of(const std::vector<Played>& all) {
  std::vector<Study> games;
  for (const Played& played : all) {
    std::vector<Moment> moments;
    for (int i = 0; i < played.swings; ++i) moments.push_back(swing(2 * i, level, lost));
    games.push_back(game(played.result, moments));
    games.back().facts.event = played.event;
    games.back().facts.date = played.date;
  }
  return season_of(games).periods;
}

}  // namespace

TEST_CASE("over time by event, in the order of time, with the interval of games") {
  const auto periods = periods_of({{"Open", "2026.05.01", "1-0", 0},
                                   {"Open", "2026.05.02", "1/2-1/2", 2},
                                   {"Open", "2026.05.??", "*", 1},
                                   {"League", "2025.10.03", "0-1", 1},
                                   {"League", "2026.02.03", "1-0", 0},
                                   {"League", "2026.??.??", "1-0", 0}});
  REQUIRE(periods.size() == 2);
  CHECK(periods[0].event == "League");
  CHECK(periods[0].first_half == 2 * 2025 + 1);
  CHECK(periods[0].games == 3);
  CHECK(periods[0].half_points == 4);
  CHECK(periods[1].event == "Open");
  CHECK(periods[1].games == 3);
  CHECK(periods[1].with_result == 2);
  CHECK(periods[1].half_points == 3);
  CHECK(periods[1].swings == 3);
  CHECK(periods[1].games_with_swing == 2);
  const base::Interval wilson = base::wilson_interval(2, 3);
  CHECK(periods[1].interval().low == wilson.low);
  CHECK(periods[1].interval().high == wilson.high);
}

TEST_CASE("an event of another year is another event") {
  std::vector<Played> games;
  for (const char* date : {"2024.05.01", "2025.05.01", "2026.05.01"}) {
    for (int i = 0; i < 3; ++i) games.push_back({"Open", date, "1-0", 0});
  }
  const auto periods = periods_of(games);
  REQUIRE(periods.size() == 3);
  CHECK(periods[2].event == "Open");
  CHECK(periods[2].first_half == 2 * 2026);
}

TEST_CASE("over time by half-years where the events are many or have no name") {
  const auto many = periods_of({{"One", "2026.01.01", "1-0", 0},
                                {"Two", "2026.06.30", "1-0", 0},
                                {"Three", "2026.07.01", "1-0", 1},
                                {"Four", "????.??.??", "1-0", 0}});
  REQUIRE(many.size() == 3);
  CHECK(many[0].event.empty());
  CHECK(many[0].first_half == 2 * 2026);
  CHECK(many[0].games == 2);
  CHECK(many[1].first_half == 2 * 2026 + 1);
  CHECK(many[2].first_half == 0);
  const auto nameless = periods_of({{"?", "2025.01.01", "1-0", 0},
                                    {"Open", "2026.01.01", "1-0", 0},
                                    {"Open", "2026.01.01", "1-0", 0}});
  REQUIRE(nameless.size() == 2);
  CHECK(nameless[1].first_half == 2 * 2026);
}

TEST_CASE("a long life is told in spans of years, twelve at most") {
  std::vector<Played> games;
  for (int year = 1990; year < 2026; ++year) {
    games.push_back({"?", std::to_string(year) + ".03.01", "1-0", 0});
  }
  const auto periods = periods_of(games);
  REQUIRE(periods.size() == 12);
  CHECK(periods[0].first_half == 2 * 1990);
  CHECK(periods[0].last_half == 2 * 1992 + 1);
  CHECK(periods[0].games == 3);
  CHECK(periods[11].last_half == 2 * 2025 + 1);
}

TEST_CASE("where all games fall into one period nothing is told over time") {
  CHECK(periods_of({}).empty());
  CHECK(periods_of({{"Open", "2026.05.01", "1-0", 0}, {"Open", "2026.05.02", "1-0", 0}}).empty());
  CHECK(periods_of({{"Open", "2026.05.01", "1-0", 0}, {"Cup", "2026.05.02", "1-0", 0}}).empty());
}

namespace {

// A game with a clock for each move of White (the player), from an hour; each position with a
// choice, the second best worth `second` and the move played nothing less than the best.
Study timed_game(const std::vector<int>& left, search::Score second, std::vector<Moment> moments) {
  Study study = game("1-0", std::move(moments));
  for (std::size_t i = 0; i < study.moves.size(); ++i) {
    study.notes[i].lines = {{.score = 0, .moves = {study.moves[i]}},
                            {.score = second, .moves = {study.moves[i]}}};
    if (i % 2 == 0 && i / 2 < left.size()) study.notes[i].clock_seconds = left[i / 2];
  }
  return study;
}

struct Band {
  int least = 0;
  std::uint64_t one_good = 0, several_good = 0, errors = 0;
  friend bool operator==(const Band&, const Band&) = default;
};

std::vector<Band> counted(const std::vector<habits::TimeBand>& bands) {
  std::vector<Band> all;
  for (const habits::TimeBand& b : bands) {
    all.push_back({b.least, b.one_good.decisions, b.several_good.decisions, b.all().errors});
  }
  return all;
}

}  // namespace

TEST_CASE("by the clock errors are counted by the time left before the move and taken for it") {
  // Taken: not known, 5 s, 10 s, 60 s, 1,000 s, and after that nothing is known.
  Study study = timed_game({3600, 3595, 3585, 3525, 2525}, 0, {});
  study.notes[6].played_score = worse;    // the fourth move, 60 s: an error
  study.notes[8].lines[1].score = worse;  // the fifth, 1,000 s: only one was good
  const habits::Season season = season_of({study});
  CHECK(season.clock.games == 1);
  CHECK(counted(season.clock.by_left) == std::vector<Band>{{1800, 1, 4, 1}});
  CHECK(counted(season.clock.by_spent) ==
        std::vector<Band>{{0, 0, 1, 0}, {10, 0, 1, 0}, {60, 0, 1, 1}, {900, 1, 0, 0}});
  const habits::Season without = season_of({timed_game({}, 0, {})});
  CHECK(without.clock.games == 0);
  CHECK(without.clock.by_left.empty());
  // A clock that gains more than the move took does not tell how long that was.
  const habits::Season gained = season_of({timed_game({3600, 3610}, 0, {})});
  CHECK(counted(gained.clock.by_left) == std::vector<Band>{{1800, 0, 2, 0}});
  CHECK(gained.clock.by_spent.empty());
}

TEST_CASE("an error made quickly: under a two-hundredth of the hour, with a tenth of it left") {
  const auto quick = [](const std::vector<int>& left, const Moment& m) {
    return !season_of({timed_game(left, 0, {m})}).quick_errors.entries.empty();
  };
  CHECK(quick({3600, 3583}, swing(2, level, lost)));
  CHECK_FALSE(quick({3600, 3582}, swing(2, level, lost)));  // 18 s are a two-hundredth
  CHECK(quick({3600, 360, 350}, swing(4, level, lost)));
  CHECK_FALSE(quick({3600, 359, 350}, swing(4, level, lost)));
  CHECK_FALSE(quick({}, swing(2, level, lost)));
  CHECK(quick({3600, 3590}, ask(Kind::only_move, 2, false, 900)));
  CHECK_FALSE(quick({3600, 3590}, ask(Kind::only_move, 2, true, 900)));
  CHECK_FALSE(quick({3600, 3590}, swing(3, level, lost)));
  CHECK_FALSE(quick({3600, 3590}, trap(2, lost)));
}

TEST_CASE(
    "a long think: a tenth of the hour for one move on which little hung, the longest first") {
  const std::vector<int> left = {3600, 3240, 2881, 2500, 1500};  // 360, 359, 381 and 1,000 s
  const habits::Season season = season_of({timed_game(left, 0, {})});
  CHECK(places(season, season.long_thinks) == "0:8 0:6 0:2");
  Study study = timed_game(left, -14, {});  // 3.4 % less
  CHECK(season_of({study}).long_thinks.entries.empty());
  study = timed_game(left, 0, {});
  study.notes[8].played_score = worse;
  CHECK(places(season_of({study}), season_of({study}).long_thinks) == "0:6 0:2");
}
