// player.html and player.txt: approved bytes, and what must hold of any page.
#include "kairos/report/player.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/habits/look_back.hpp"
#include "kairos/report/turning_points.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/movegen.hpp"

#include "support/golden.hpp"
#include "support/markup.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

constexpr const char* player = "Marrowby, \"Si\" <b>Silas";

// The games of the fake collection as those of one player.
class PlayerSource final : public habits::Source {
 public:
  PlayerSource() : studies_(fake_collection().studies) {
    studies_[0].facts.black = studies_[1].facts.white = player;
    studies_[2].facts.white = studies_[3].facts.black = player;
    // What nobody expects of a player of the tests' making is found here.
    studies_[1].moments[0].find_rate = 1'250;
    for (study::Study& study : studies_) give_choice(study);
    // A long think on which nothing hung, and an error in no time.
    studies_[0].notes[5].clock_seconds = 5300;
    studies_[0].notes[7].clock_seconds = 4700;
    studies_[0].notes[9].clock_seconds = 4690;
    studies_[3].facts.date = "2026.08.15";
  }
  [[nodiscard]] std::size_t size() const override { return studies_.size(); }
  [[nodiscard]] study::Study load(std::size_t index) const override { return studies_[index]; }
  [[nodiscard]] std::vector<PuzzlePlace> puzzle_places() const override { return {}; }
  [[nodiscard]] std::uint64_t open_places(std::size_t index) const override {
    return index == 0 ? 3 : 0;
  }

  std::vector<study::Study> studies_;

 private:
  // A second line in each position, as good as the first, so that there are decisions.
  static void give_choice(study::Study& study) {
    for (std::size_t i = 0; i < study.notes.size(); ++i) {
      rules::MoveList legal;
      rules::legal_moves(study::position_after(study, i), legal);
      std::vector<search::Line>& lines = study.notes[i].lines;
      if (lines.size() != 1 || legal.size() < 2) continue;
      study.notes[i].played_score = lines[0].score;
      const rules::Move best = lines[0].moves.front();
      lines.push_back(lines[0]);
      lines[1].moves = {legal[legal[0] == best ? 1 : 0]};
    }
  }
};

report::PlayerPage page_of(const habits::Source& source, std::vector<std::string> names) {
  report::PlayerPage page;
  page.season = habits::look_back(source, names);
  habits::Collector collector({});
  collector.add(source, names, true);
  page.habits = collector.find_by_expectation(base::join(names, " / "));
  page.names = std::move(names);
  page.efforts = {"light: 20,000 nodes a position, 150,000 a moment"};
  page.version = "0.0.0-test";
  return page;
}

report::PlayerPage sample_page() {
  report::PlayerPage page = page_of(PlayerSource(), {player, "Marrowby, S"});
  page.training = fake_collection().puzzles_;
  page.training_missed = 1;
  page.training_file = "training.epd";
  return page;
}

std::string text_of(const report::PlayerPage& page) {
  base::StringSink sink;
  REQUIRE(report::write_player_text(page, sink).ok());
  return sink.text;
}

std::string html_of(const report::PlayerPage& page) {
  base::StringSink sink;
  REQUIRE(report::write_player_html(page, sink).ok());
  return sink.text;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::string unwrapped(const std::string& text) {
  std::string one;
  for (const std::string_view row : base::split(text, '\n')) {
    for (const std::string_view field : base::fields(row)) one.append(field).append(" ");
  }
  return one;
}

}  // namespace

TEST_CASE("a player's page has the approved bytes") {
  check_golden("player", "player.txt", text_of(sample_page()));
  check_golden("player", "player.html", html_of(sample_page()));
}

TEST_CASE("a player's text keeps to 80 columns") {
  const std::string text = text_of(sample_page());
  for (const std::string_view row : base::split(text, '\n')) {
    CHECK(base::character_count(row) <= 80);
    CHECK_FALSE(row.ends_with(' '));
  }
}

TEST_CASE(
    "every element of a player's page is closed, every link leads somewhere, names are text") {
  const std::string html = html_of(sample_page());
  const std::set<std::string> empty_elements = {"!DOCTYPE", "meta"};
  test::check_closed(html, empty_elements);
  const std::vector<std::string> ids = values_of(html, "id");
  CHECK(std::set<std::string>(ids.begin(), ids.end()).size() == ids.size());
  for (const std::string& link : values_of(html, "href")) {
    INFO(link);
    REQUIRE(link.starts_with("#"));
    CHECK(std::ranges::find(ids, link.substr(1)) != ids.end());
  }
  CHECK_FALSE(holds(html, "<b>"));
  CHECK_FALSE(holds(html, "<script"));
}

TEST_CASE("each entry says its game, its place and what the report says of it") {
  const report::PlayerPage page = sample_page();
  const std::string text = unwrapped(text_of(page));
  REQUIRE_FALSE(page.season.costliest.entries.empty());
  for (const habits::Entry& entry : page.season.costliest.entries) {
    const study::Study& study = page.season.studies[entry.study];
    for (const report::TurningPoint& point : report::turning_points(study)) {
      if (point.ply != entry.ply) continue;
      CHECK(holds(text, study.facts.white.substr(0, 6)));
      CHECK(holds(text, report::kinds_words(point)));
    }
  }
  CHECK(holds(text, "THE BEST FINDS"));
  CHECK(holds(text, "in 10 players rated 2000 find 6. c8=R."));
  // The trap of the same place stands in that text already.
  CHECK(holds(text, "by stalemate. More above: The best finds, 1."));
  CHECK(holds(text, "4... g6 after 10 min, 1 h 18 min left: 4... g6 and "));
  CHECK(holds(text, "ERRORS MADE QUICKLY"));
  CHECK(holds(text, "3 places in these games where a moment may be have not been verified"));
}

namespace {

// The part of a text under that heading, up to the next.
std::string part_of(const std::string& text, const std::string& heading) {
  const auto begin = text.find("\n" + heading + "\n");
  if (begin == std::string::npos) return "";
  const auto body = text.find("\n\n", begin);
  return text.substr(body, text.find("\n====", body) - body);
}

// An entry of a list as the text begins it: "2. Move 8, White: ", and its game.
std::string beginning_of(const base::Json& entry, std::size_t number) {
  const std::string side = *entry.find("side")->text() == "white" ? "White" : "Black";
  return std::to_string(number) + ". Move " +
         std::to_string(*entry.find("move_number")->integer()) + ", " + side + ": ";
}

}  // namespace

TEST_CASE("the object holds the lists of the text: the same entries in the same order") {
  const report::PlayerPage page = sample_page();
  const std::string text = text_of(page);
  const base::Json json = base::parse_json(report::player_json(page)).value();
  const base::Json& season = *json.find("season");
  std::size_t entries = 0;
  for (const auto& [name, heading] :
       {std::pair{"costliest", "THE COSTLIEST DECISIONS"}, std::pair{"finds", "THE BEST FINDS"},
        std::pair{"traps", "TRAPS AVOIDED"}, std::pair{"wins_let_slip", "WINS LET SLIP"},
        std::pair{"losses_saved", "LOSSES SAVED"},
        std::pair{"quick_errors", "ERRORS MADE QUICKLY"}}) {
    INFO(name);
    const std::string part = part_of(text, heading);
    const base::Json::Array& list = *season.find(name)->find("entries")->elements();
    CHECK(season.find(name)->find("all")->integer() >= static_cast<std::int64_t>(list.size()));
    std::size_t at = 0;
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string begin = "\n" + beginning_of(list[i], i + 1);
      INFO(begin << " in " << part);
      at = part.find(begin, at);
      REQUIRE(at != std::string::npos);
      const std::string game = *list[i].find("game")->text();
      CHECK(holds(part.substr(at), game.substr(0, game.find(' '))));
    }
    CHECK_FALSE(holds(part, "\n" + std::to_string(list.size() + 1) + ". Move "));
    entries += list.size();
  }
  CHECK(entries >= 4);
  CHECK(season.find("long_thinks")->find("entries")->elements()->size() ==
        page.season.long_thinks.entries.size());
}

TEST_CASE("an entry of the object has its moves, what they cost, who finds them and the clock") {
  const base::Json json = base::parse_json(report::player_json(sample_page())).value();
  const base::Json& season = *json.find("season");
  const auto first_of = [&season](const char* list) {
    return season.find(list)->find("entries")->elements()->front();
  };
  const base::Json find = first_of("finds");
  CHECK(*find.find("played")->text() == "c8=R");  // About 1 in 10 players rated 2000 find 6. c8=R.
  CHECK(*find.find("best")->text() == "c8=R");
  CHECK(find.find("find_rate")->real() == Approx(0.125));
  CHECK(find.find("cost")->real() == Approx(0));
  CHECK(find.find("tempting")->is_null());
  const base::Json trap = first_of("traps");
  CHECK(*trap.find("kind")->text() == "trap");
  CHECK(trap.find("tempting")->text() != nullptr);
  CHECK(*trap.find("tempting_cost")->real() > 0);
  const base::Json swing = season.find("costliest")->find("entries")->elements()->at(1);
  CHECK(*swing.find("played")->text() == "Bxd1");  // 5... Bxd1 loses: better was 5... dxe5
  CHECK(*swing.find("best")->text() == "dxe5");
  CHECK(*swing.find("cost")->real() > 0.1);
  CHECK(swing.find("clock")->integer() == 4690);
  CHECK(swing.find("answer")->is_null());
  CHECK(*first_of("wins_let_slip").find("won_ply")->integer() >= 0);
  const base::Json think = first_of("long_thinks");  // 4... g6 after 10 min, 1 h 18 min left
  CHECK(*think.find("played")->text() == "g6");
  CHECK(think.find("time_spent")->integer() == 600);
  CHECK(think.find("clock")->integer() == 4700);
  CHECK(season.find("open_places")->integer() == 3);
  CHECK(season.find("clock")->find("games")->integer() == 1);
  CHECK(json.find("training")->find("missed")->integer() == 1);
}

TEST_CASE("a loss saved has in the object what it was saved with") {
  report::PlayerPage page = sample_page();
  habits::Entry entry = page.season.costliest.entries.at(1);  // 5... Bxd1, and 6. Bxf7+ came
  entry.answer_ply = entry.ply + 1;
  entry.won_ply = entry.ply - 2;
  page.season.losses_saved = {.entries = {entry}, .all = 12};
  const base::Json json = base::parse_json(report::player_json(page)).value();
  const base::Json& saved = *json.find("season")->find("losses_saved");
  CHECK(saved.find("all")->integer() == 12);
  const base::Json& told = saved.find("entries")->elements()->front();
  CHECK(*told.find("played")->text() == "Bxd1");
  CHECK(told.find("won_ply")->integer() == entry.won_ply);
  CHECK(told.find("answer_ply")->integer() == entry.answer_ply);
  CHECK(*told.find("answer")->text() == "Bxf7+");
}

TEST_CASE("a list without entries is named as such, and one game is called one game") {
  PlayerSource source;
  source.studies_.resize(1);
  const std::string text = unwrapped(text_of(page_of(source, {player})));
  CHECK(
      holds(text, "1 game: 0 won, 0 drawn, 1 lost. It is one game, and a season begins with two."));
  CHECK(holds(text, "Nothing in these games belongs to: the best finds; traps avoided; "));
  CHECK_FALSE(holds(text, "OVER TIME"));
  CHECK_FALSE(holds(text, "THE BEST FINDS"));
  source.studies_[0].moments.clear();
  const std::string nothing = unwrapped(text_of(page_of(source, {player})));
  CHECK(holds(nothing, "Nothing in these games belongs to: the costliest decisions; "));
}

TEST_CASE("what one list has told in full the next tells in short, and where") {
  PlayerSource source;
  study::Moment& swing = source.studies_[0].moments[0];
  swing.best_score = 400;  // a win, thrown away: costliest and let slip
  const std::string text = unwrapped(text_of(page_of(source, {player})));
  CHECK(holds(text, "More above: The costliest decisions, 1."));
  const std::string html = html_of(page_of(source, {player}));
  CHECK(holds(html, "More above: <a href=\"#costliest-1\">"));
}

TEST_CASE("where a win was there before the decision that let it go, it is said where") {
  report::PlayerPage page = sample_page();
  REQUIRE_FALSE(page.season.wins_let_slip.entries.empty());
  habits::Entry& entry = page.season.wins_let_slip.entries.front();
  CHECK_FALSE(holds(text_of(page), "was winning"));
  entry.won_ply = entry.ply - 8;  // four moves before the eighth
  CHECK(holds(unwrapped(text_of(page)), "At move 4 White was winning. A draw was agreed"));
}

TEST_CASE("a period of a single game has no interval, others have Wilson's") {
  report::PlayerPage page = sample_page();
  page.season.periods = {{.event = "Club Open",
                          .first_half = 2 * 2026,
                          .last_half = 2 * 2026,
                          .games = 1,
                          .with_result = 1,
                          .half_points = 1,
                          .swings = 1,
                          .games_with_swing = 1},
                         {.first_half = 2 * 2025 + 1,
                          .last_half = 2 * 2025 + 1,
                          .games = 13,
                          .with_result = 12,
                          .half_points = 15,
                          .swings = 9,
                          .games_with_swing = 5},
                         {.first_half = 2 * 2019, .last_half = 2 * 2021 + 1, .games = 2}};
  const std::string text = unwrapped(text_of(page));
  CHECK(holds(text, "Club Open, 2026 1 0.5 of 1 1 1 of 1 2025, July"));
  // E. B. Wilson's interval of 5 in 13, by hand: 17.7 to 64.5 % (64.47).
  CHECK(holds(text, "2025, July to December 13 7.5 of 12 9 5 of 13, 18 to 64 %"));
  CHECK(holds(text, "2019 to 2021 2 - 0 0 of 2, 0 to 66 %"));
}

TEST_CASE("a page for somebody who prepares to play the player speaks to nobody as the player") {
  report::PlayerPage page = sample_page();
  page.for_opponent = true;
  const std::string text = unwrapped(text_of(page)), html = html_of(page);
  for (const std::string& told : {text, unwrapped(html)}) {
    CHECK(holds(told, "For preparation before a game against Marrowby, "));
    CHECK(holds(told,
                "not for use during play: then all help is forbidden (FIDE Laws of Chess, "
                "article 11.3)."));
  }
  CHECK(holds(text, "PUZZLES FROM THESE GAMES"));
  CHECK(holds(html, "<h2>Puzzles from these games</h2>"));
  for (const std::string& told : {base::lower_case(text), base::lower_case(html)}) {
    CHECK_FALSE(holds(told, "to train with"));
    CHECK_FALSE(holds(told, "your"));
  }
  // What one prepares by comes first.
  CHECK(text.find("WHAT KEEPS COMING BACK") < text.find("THE COSTLIEST DECISIONS"));
  CHECK(html.find("<section id=\"habits\">") < html.find("<section id=\"costliest\">"));
  CHECK(html.find("href=\"#habits\"") < html.find("href=\"#costliest\""));
  test::check_closed(html, {"!DOCTYPE", "meta"});
  const std::string as_laid_out = text_of(page);
  for (const std::string_view row : base::split(as_laid_out, '\n')) {
    CHECK(base::character_count(row) <= 80);
  }
  CHECK(report::is_player_text(text_of(page), {player}));
  const std::string own = unwrapped(text_of(sample_page()));
  CHECK_FALSE(holds(own, "preparation"));
  CHECK(own.find("WHAT KEEPS COMING BACK") > own.find("THE COSTLIEST DECISIONS"));
}

TEST_CASE("a player's text is known again by the player's names, whatever else it says") {
  const std::string text = text_of(sample_page());
  CHECK(report::is_player_text(text, {"Somebody", player}));
  CHECK_FALSE(report::is_player_text(text, {"Marrowby, S"}));
  CHECK_FALSE(report::is_player_text(text, {}));
  CHECK_FALSE(report::is_player_text("KAIROS", {player}));
  CHECK_FALSE(report::is_player_text("", {player}));
  CHECK_FALSE(report::is_player_text("my shopping list", {player}));
  report::PlayerPage page = sample_page();
  page.names = {std::string(190, 'x') + " y"};  // more than a row
  CHECK(report::is_player_text(text_of(page), page.names));
}

TEST_CASE("a sink that fails at any write fails the page") {
  class FailingSink final : public base::ByteSink {
   public:
    explicit FailingSink(int writes_that_work) : left_(writes_that_work) {}
    base::Status write(std::string_view) override {
      if (left_-- > 0) return base::done();
      return base::Fault{base::Code::disk_full, "", {}};
    }

   private:
    int left_;
  };
  const report::PlayerPage page = sample_page();
  for (const auto write : {report::write_player_html, report::write_player_text}) {
    int working = 0;
    for (; working < 100; ++working) {
      FailingSink sink(working);
      if (write(page, sink).ok()) break;
    }
    CHECK(working >= 2);
    CHECK(working < 100);
  }
}
