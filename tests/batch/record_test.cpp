#include "kairos/batch/record.hpp"

#include <catch2/catch.hpp>

#include "support/random_studies.hpp"

using namespace kairos;
using kairos::test::RandomStudies;

namespace {

batch::Findings random_findings(RandomStudies& random, int ply) {
  batch::Findings findings{.ply = ply, .nodes = random.below(1'000'000)};
  for (auto n = random.below(3); n > 0; --n) findings.moments.push_back(random.moment(ply));
  for (auto n = random.below(3); n > 0; --n) findings.puzzles.push_back(random.puzzle(ply));
  for (auto n = random.below(3); n > 0; --n) {
    findings.drops.push_back(static_cast<puzzle::Drop>(random.below(6)));
  }
  return findings;
}

base::Json again(const base::Json& json) {
  return base::parse_json(base::to_json(json)).value();
}

// A copy of `json` without the member at `path`, or with another value in it.
base::Json with_member(const base::Json& json, std::string_view name,
                       const std::optional<base::Json>& value) {
  base::Json changed = base::Json::object();
  for (const auto& [member, old] : *json.members()) {
    if (member != name) {
      changed.add(member, old);
    } else if (value) {
      changed.add(member, *value);
    }
  }
  return changed;
}

}  // namespace

TEST_CASE("a study comes back from its record as it was") {
  const auto seed = 11u;
  CAPTURE(seed);
  RandomStudies random(seed);
  for (int i = 0; i < 60; ++i) {
    const study::Study study = random.study(random.below(120));
    const auto decoded = batch::decode_study(again(batch::encode(study)));
    REQUIRE(decoded.ok());
    REQUIRE(*decoded == study);
  }
}

TEST_CASE("findings come back from their record as they were") {
  const auto seed = 12u;
  CAPTURE(seed);
  RandomStudies random(seed);
  for (int i = 0; i < 200; ++i) {
    const batch::Findings findings = random_findings(random, i);
    const auto decoded = batch::decode_findings(again(batch::encode(findings)));
    REQUIRE(decoded.ok());
    REQUIRE(*decoded == findings);
  }
}

TEST_CASE("what belongs to the run is not in the record of the game") {
  RandomStudies random(13);
  study::Study study = random.study(10);
  const base::Json plain = batch::encode(study);
  study.facts.file = "elsewhere.pgn";
  study.facts.line = 77;
  study.facts.number = 5;
  study.pgn = "text";
  CHECK(batch::encode(study) == plain);

  batch::Findings findings{.ply = 3, .moments = {}, .puzzles = {random.puzzle(3)}, .drops = {}};
  const base::Json puzzle = batch::encode(findings);
  findings.puzzles.front().game = 9;
  CHECK(batch::encode(findings) == puzzle);
}

TEST_CASE("a null move in a moment is kept") {
  study::Moment moment;
  moment.kind = study::Kind::claim;
  moment.played = rules::null_move;
  const batch::Findings findings{.ply = 0, .moments = {moment}, .puzzles = {}, .drops = {}};
  CHECK(batch::decode_findings(batch::encode(findings)).value() == findings);
}

TEST_CASE("a record with a member missing or of another kind is refused with the member's name") {
  RandomStudies random(14);
  const base::Json study = batch::encode(random.study(20));
  for (const auto& [name, value] : *study.members()) {
    CAPTURE(name);
    CHECK_FALSE(batch::decode_study(with_member(study, name, std::nullopt)).ok());
    CHECK_FALSE(batch::decode_study(with_member(study, name, base::Json(true))).ok());
  }
  const base::Json puzzle = *batch::encode({.ply = 0, .puzzles = {random.puzzle(0)}})
                                 .find("puzzles")
                                 ->elements()
                                 ->begin();
  for (const auto& [name, value] : *puzzle.members()) {
    CAPTURE(name);
    base::Json findings = base::Json::object();
    findings.add("ply", 0).add("moments", base::Json::array()).add("drops", base::Json::array());
    findings.add("nodes", 0)
        .add("puzzles", base::Json::array().push(with_member(puzzle, name, std::nullopt)));
    const auto decoded = batch::decode_findings(findings);
    REQUIRE_FALSE(decoded.ok());
    CHECK(decoded.fault().code == base::Code::json_damaged);
    CHECK((decoded.fault().detail == name || name == "fen"));
  }
  CHECK_FALSE(batch::decode_study(base::Json()).ok());
  CHECK_FALSE(batch::decode_findings(base::Json::array()).ok());
}

TEST_CASE("a reason with a member missing, or with a name that is none, is refused") {
  study::Moment moment;
  study::Reason& reason = moment.reasons.emplace_back();
  reason.role = study::Role::note;
  const base::Json whole = batch::encode({.ply = 0, .moments = {moment}});
  const base::Json plain = (*whole.find("moments")->elements())[0];
  const auto decoded = [&](const base::Json& changed) {
    const base::Json told = with_member(plain, "reasons", base::Json::array().push(changed));
    return batch::decode_findings(with_member(whole, "moments", base::Json::array().push(told)));
  };
  const base::Json good = (*plain.find("reasons")->elements())[0];
  REQUIRE(decoded(good).ok());
  for (const auto& [name, value] : *good.members()) {
    CAPTURE(name);
    CHECK(decoded(with_member(good, name, std::nullopt)).fault().detail == name);
    CHECK(decoded(with_member(good, name, base::Json("?"))).fault().detail == name);
  }
  CHECK_FALSE(decoded(with_member(good, "squares", base::Json::array().push(64))).ok());
  CHECK_FALSE(decoded(with_member(good, "favours", base::Json(2))).ok());
  CHECK_FALSE(decoded(with_member(good, "line", base::Json("e2e5"))).ok());
}

TEST_CASE("a record whose moves cannot be played is refused") {
  study::Study study;
  study.moves = {rules::Move::normal(rules::e2, rules::e4)};
  study.notes.resize(2);
  base::Json json = batch::encode(study);
  REQUIRE(batch::decode_study(json).ok());
  for (const char* moves : {"e2e5", "e7e5", "e2e4 e2e4", "e2", "-", "e2e4 0000 x", "e2e4q"}) {
    CAPTURE(moves);
    CHECK_FALSE(batch::decode_study(with_member(json, "moves", base::Json(moves))).ok());
  }
  CHECK_FALSE(batch::decode_study(with_member(json, "start", base::Json("8/8 w"))).ok());
  CHECK_FALSE(batch::decode_study(with_member(json, "notes", base::Json::array())).ok());
}
