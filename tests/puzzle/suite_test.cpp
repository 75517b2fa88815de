#include "kairos/puzzle/suite.hpp"

#include <catch2/catch.hpp>

#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::puzzle;

namespace {

const std::string back_rank = "6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - ";
const rules::Move ra8 = rules::Move::normal(rules::a1, rules::a8);
const rules::Move ra7 = rules::Move::normal(rules::a1, rules::a7);

std::vector<SuitePosition> read(const std::string& text) {
  const test::TemporaryFolder folder;
  folder.write("s.epd", text);
  return read_suite(folder / "s.epd").value();
}

search::Verdict verdict_of(rules::Move move, search::Score score) {
  search::Verdict verdict;
  verdict.lines.push_back({.score = score, .moves = {move}});
  verdict.nodes = 10;
  verdict.depth = 3;
  return verdict;
}

}  // namespace

TEST_CASE("a suite asks by bm, am or dm, and says where a line asks nothing") {
  const auto suite = read("# mates\n" + back_rank + "bm Ra8#; id \"a\";\n" + back_rank +
                          "am Ra7;\n" + back_rank + "dm 1;\n" + back_rank + "id \"none\";\n");
  REQUIRE(suite.size() == 4);
  CHECK(suite[0].line == 2);
  CHECK(asked_text(suite[0]) == "bm Ra8#");
  CHECK(asked_text(suite[1]) == "am Ra7");
  CHECK(asked_text(suite[2]) == "dm 1");
  REQUIRE(suite[3].fault);
  CHECK(suite[3].fault->code == base::Code::epd_operation);
}

TEST_CASE("an answer is right by its move, or where a mate is asked for by its score") {
  const auto suite =
      read(back_rank + "bm Ra8#;\n" + back_rank + "am Ra7;\n" + back_rank + "dm 1;\n");
  const search::Score mate = search::mate_in_plies(1);
  CHECK(answer_of(suite[0], verdict_of(ra8, mate), 10).solved);
  CHECK_FALSE(answer_of(suite[0], verdict_of(ra7, 30), 10).solved);
  CHECK(answer_of(suite[1], verdict_of(ra8, 30), 10).solved);
  CHECK_FALSE(answer_of(suite[1], verdict_of(ra7, mate), 10).solved);
  CHECK(answer_of(suite[2], verdict_of(ra8, mate), 10).solved);
}

TEST_CASE("a mate that the search did not see to its end is proved") {
  const auto suite = read(back_rank + "dm 1;\n7k/8/8/8/8/8/8/R5K1 w - - dm 1;\n");
  CHECK(answer_of(suite[0], verdict_of(ra7, 500), 1'000).solved);
  CHECK_FALSE(answer_of(suite[1], verdict_of(ra7, 500), 1'000).solved);  // there is none
}
