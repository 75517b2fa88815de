// The points of an evening: places, names, and the file that outlives a crash.
#include "kairos/audience/evening.hpp"

#include <catch2/catch.hpp>

#include "kairos/audience/count.hpp"

#include "support/games.hpp"

using namespace kairos;
using namespace kairos::audience;
using base::Code;

namespace {

std::string places(const Evening& evening) {
  std::string text;
  for (const Place& place : places_of(evening)) {
    text += std::to_string(place.place) + ":";
    for (const std::string& name : place.names) text += " " + name;
    text += " " + std::to_string(place.points) + "\n";
  }
  return text;
}

Evening three_questions() {
  Evening evening;
  add(evening, {"p1", "one"}, {{"dora"}, {"anna"}, {"carl", true}});
  add(evening, {"p2", "two"}, {{"Bert"}, {"anna"}});
  add(evening, {"p3", "three"}, {{"Emil"}});
  return evening;
}

puzzle::Exercise long_exercise() {
  puzzle::Exercise e;
  e.id = "long";
  // Two rooks roll the king up (common practice).
  e.puzzle.position = support::position("7k/8/8/8/8/8/R7/1R4K1 w - - 0 1");
  e.puzzle.line = support::line(e.puzzle.position, "Rb7 Kg8 Ra8#");
  e.puzzle.asked = static_cast<int>(e.puzzle.line.size());
  e.keys = {e.puzzle.line.front()};
  return e;
}

}  // namespace

TEST_CASE("a key is a point, the whole solution another, and equal points share a place") {
  CHECK(places(three_questions()) == "1: anna carl 2\n3: Bert dora Emil 1\n");
  CHECK(places(Evening{}).empty());
}

TEST_CASE("a question that is over brings no more points") {
  Evening evening = three_questions();
  add(evening, {"p2", "again"}, {{"dora"}, {"Bert"}});
  CHECK(places(evening) == places(three_questions()));
  CHECK(evening.asked.size() == 3);
}

TEST_CASE("names are compared as people write them") {
  Evening evening;
  const char* const same[][2] = {
      {"Anna", "ANNA"},
      {"@anna", "anna"},
      {" Anna  Maria", "anna maria "},
      {"Anna\302\240Maria", "anna maria"},                                       // no-break space
      {"\303\204nne", "\303\244NNE"},                                            // A with diaeresis
      {"\305\201ukasz", "\305\202UKASZ"},                                        // L with stroke
      {"\305\275iga", "\305\276iga"},                                            // Z with caron
      {"\320\220\320\275\320\275\320\260", "\320\260\320\235\320\235\320\260"},  // Anna, Cyrillic
      {"\316\221\316\275\316\275\316\261", "\316\261\316\275\316\275\316\261"},  // Anna, Greek
      {"\342\230\203 x", "\342\230\203  X"}};                                    // a snowman
  for (const auto& [one, other] : same) {
    INFO(one << ", " << other);
    evening = {};
    add(evening, {"p1", ""}, {{one}});
    add(evening, {"p2", ""}, {{other}});
    CHECK(evening.players.size() == 1);
    CHECK(evening.players.begin()->second.name == one);
    CHECK(evening.players.begin()->second.points == 2);
  }
  const char* const different[][2] = {{"anna", "ann a"}, {"anna", "hanna"}, {"a", "\303\244"}};
  for (const auto& [one, other] : different) {
    INFO(one << ", " << other);
    evening = {};
    add(evening, {"p1", ""}, {{one}, {other}});
    CHECK(evening.players.size() == 2);
  }
}

TEST_CASE("the count tells who has a key, and who more") {
  const puzzle::Exercise exercise = long_exercise();
  Count count(exercise);
  for (const char* line : {"anna: Rb7", "bert: Ra3", "carl: Rb7 Ra8", "ANNA : Rb7 Kg8 Ra8"}) {
    (void)count.take(line);
  }
  count.close();
  CHECK(count.take("late: Rb7").fate == Count::Fate::late);
  CHECK(count.take("nonsense").fate == Count::Fate::unreadable);
  const std::vector<Solver> solvers = count.solvers();
  REQUIRE(solvers.size() == 2);
  CHECK(solvers[0].name == "anna");
  CHECK_FALSE(solvers[0].has_whole);
  CHECK(solvers[1].name == "carl");
  CHECK(solvers[1].has_whole);
  CHECK(count.tally().counts.late == 1);
  CHECK(count.tally().counts.people == 3);
}

TEST_CASE("an evening is read back as it was written") {
  Evening evening = three_questions();
  add(evening, {"p4", "quote \" and \\ and \n"}, {{"<b>\342\200\256\"x\""}});
  const std::string text = to_text(evening);
  const auto read = parse_evening(text, "f");
  REQUIRE(read);
  CHECK(to_text(*read) == text);
  CHECK(places(*read) == places(evening));
  CHECK(read->has_asked("p4"));
  CHECK_FALSE(read->has_asked("p5"));
  REQUIRE(parse_evening("", "f"));
  CHECK(parse_evening("", "f")->asked.empty());
}

TEST_CASE("a file that is damaged or something else is refused with its line") {
  const std::string header = "{\"kairos\":\"evening\",\"version\":1}\n";
  const std::pair<std::string, Code> bad[] = {
      {"{\"kairos\":\"quiz scores\",\"version\":1}\n", Code::not_a_score_file},
      {"{\"kairos\":\"evening\",\"version\":2}\n", Code::not_a_score_file},
      {"1. e4 e5", Code::not_a_score_file},
      {header + "{\"name\":\"a\"}", Code::score_damaged},
      {header + "{\"name\":\"a\",\"points\":0}", Code::score_damaged},
      {header + "{\"name\":\"a\",\"points\":-1}", Code::score_damaged},
      {header + "{\"name\":\"a\",\"points\":1}\n{\"name\":\"A\",\"points\":1}",
       Code::score_damaged},
      {header + "{\"name\":\"\",\"points\":1}", Code::score_damaged},
      {header + "{\"position\":\"p\"}", Code::score_damaged},
      {header + "{\"position\":\"\",\"id\":\"x\"}", Code::score_damaged},
      {header + "{\"position\":\"p\",\"id\":\"x\"}\n{\"na", Code::json_damaged}};
  for (const auto& [text, code] : bad) {
    INFO(text);
    const auto read = parse_evening(text, "f");
    REQUIRE_FALSE(read);
    CHECK(read.fault().code == code);
    CHECK(read.fault().place.file == "f");
    CHECK(read.fault().place.line > 0);
  }
}
