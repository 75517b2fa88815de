#include "kairos/study/settings.hpp"

#include <catch2/catch.hpp>
#include <set>

using namespace kairos;
using study::EffortName;
using study::Settings;

TEST_CASE("efforts grow from light to deep, and checks get more than surveys") {
  const auto light = study::effort_of(EffortName::light);
  const auto steady = study::effort_of(EffortName::steady);
  const auto deep = study::effort_of(EffortName::deep);
  for (const auto& [less, more] : {std::pair(light, steady), std::pair(steady, deep)}) {
    CHECK(less.survey_nodes < more.survey_nodes);
    CHECK(less.verify_nodes < more.verify_nodes);
    CHECK(less.puzzle_nodes < more.puzzle_nodes);
  }
  for (const auto& e : {light, steady, deep}) {
    CHECK(e.survey_nodes < e.verify_nodes);
    CHECK(e.verify_nodes < e.puzzle_nodes);
  }
}

TEST_CASE("every setting shows in the text that a run is known by") {
  std::set<std::string> texts{study::to_text(Settings{})};
  const auto add = [&](auto change) {
    Settings s;
    change(s);
    INFO(study::to_text(s));
    CHECK(texts.insert(study::to_text(s)).second);
  };
  add([](Settings& s) { s.effort.survey_nodes = 1; });
  add([](Settings& s) { s.effort.verify_nodes = 1; });
  add([](Settings& s) { s.effort.puzzle_nodes = 1; });
  add([](Settings& s) { s.swing_cost = 0.2; });
  add([](Settings& s) { s.only_move_least = 0.2; });
  add([](Settings& s) { s.only_move_gap = 0.25; });
  add([](Settings& s) { s.quiet_win_gain = 200; });
  add([](Settings& s) { s.trap_cost = 0.4; });
  add([](Settings& s) { s.resigned_least = 0.5; });
  add([](Settings& s) { s.agreed_least = 0.8; });
  add([](Settings& s) { s.claim_cost = 0.2; });
  add([](Settings& s) { s.candidate_share = 0.5; });
  add([](Settings& s) { s.decided = 0.98; });
  add([](Settings& s) { s.from_move = 9; });
  CHECK(study::to_text(Settings{}) == study::to_text(Settings{}));
}
