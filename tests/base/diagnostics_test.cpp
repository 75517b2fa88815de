#include "kairos/base/diagnostics.hpp"

#include <catch2/catch.hpp>
#include <set>

using namespace kairos::base;

TEST_CASE("every code has its own words, and advice") {
  std::set<std::string_view> all;
  for (int i = 0; i < code_count; ++i) {
    CAPTURE(i);
    const auto code = static_cast<Code>(i);
    CHECK_FALSE(words(code).empty());
    CHECK_FALSE(advice(code).empty());
    CHECK(all.insert(words(code)).second);
    // They stand in the middle of a message: no capital, no full stop.
    CHECK_FALSE(words(code).ends_with('.'));
    CHECK_FALSE(advice(code).ends_with('.'));
  }
}

TEST_CASE("a fault is described with the parts of its place that are known") {
  Fault fault{Code::illegal_move, "Bf3", {}};
  const std::string tail = std::string(words(Code::illegal_move)) + ": Bf3 (" +
                           std::string(advice(Code::illegal_move)) + ")";
  CHECK(describe(fault) == tail);
  fault.place.file = "a.pgn";
  CHECK(describe(fault) == "a.pgn: " + tail);
  fault.place.column = 5;  // means nothing without a line
  CHECK(describe(fault) == "a.pgn: " + tail);
  fault.place.line = 12;
  CHECK(describe(fault) == "a.pgn:12:5: " + tail);
  fault.place.game = 3;
  CHECK(describe(fault) == "a.pgn:12:5: game 3: " + tail);
  fault.detail.clear();
  CHECK(describe(fault) == "a.pgn:12:5: game 3: " + std::string(words(Code::illegal_move)) + " (" +
                               std::string(advice(Code::illegal_move)) + ")");
}

TEST_CASE("a fault list keeps faults in order") {
  FaultList list;
  list.report({Code::no_games, "1", {}});
  list.report({Code::usage, "2", {}});
  REQUIRE(list.faults.size() == 2);
  CHECK(list.faults[0].detail == "1");
  CHECK(list.faults[1].code == Code::usage);
}

TEST_CASE("a fault list keeps the first faults, cut, and counts the others") {
  FaultList list(2);
  for (const char* detail : {"1", "2", "3", "4"}) list.report({Code::no_games, detail, {}});
  CHECK(list.faults.size() == 2);
  CHECK(list.more == 2);
  const auto all = std::move(list).all();
  REQUIRE(all.size() == 3);
  CHECK(all[1].detail == "2");
  CHECK(all[2].code == Code::more_faults);
  CHECK(describe(all[2]).find("2 more") != std::string::npos);

  FaultList one;
  one.report({Code::no_games, std::string(1'000'000, 'x'), {}});
  CHECK(one.faults[0].detail.size() == longest_detail);
  CHECK(std::move(one).all().size() == 1);
}
