#include "kairos/batch/record.hpp"

#include <catch2/catch.hpp>
#include <limits>

#include "support/random_studies.hpp"

using namespace kairos;
using kairos::test::RandomStudies;

namespace {

batch::Findings random_findings(RandomStudies& random) {
  const study::Study study = random.study(20);
  const int ply =
      study.moves.empty() ? 0 : random.number(0, static_cast<int>(study.moves.size()) - 1);
  batch::Findings findings{.ply = ply, .nodes = random.below(1'000'000)};
  if (!study.moves.empty()) {
    for (auto n = random.below(3); n > 0; --n)
      findings.moments.push_back(random.moment(study, ply));
  }
  if (!study.moves.empty()) {
    for (auto n = random.below(3); n > 0; --n)
      findings.puzzles.push_back(random.why_not(study, ply));
  }
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
    const batch::Findings findings = random_findings(random);
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
  CHECK(batch::encode(study) == plain);

  batch::Findings findings{
      .ply = 0, .moments = {}, .puzzles = {random.why_not({}, 0)}, .drops = {}};
  const base::Json puzzle = batch::encode(findings);
  findings.puzzles.front().game = 9;
  CHECK(batch::encode(findings) == puzzle);
}

TEST_CASE("a null move in the notes is kept") {
  batch::Findings findings{.ply = 0};
  study::Moment& moment = findings.moments.emplace_back();
  moment.kind = study::Kind::claim;
  moment.played = rules::null_move;
  moment.best = rules::Move::normal(rules::e2, rules::e4);
  moment.line = {moment.best};
  CHECK(batch::decode_findings(batch::encode(findings)).value() == findings);
}

TEST_CASE("a record with a member missing or of another kind is refused with the way to it") {
  RandomStudies random(14);
  const base::Json study = batch::encode(random.study(20));
  for (const auto& [name, value] : *study.members()) {
    CAPTURE(name);
    const auto missing = batch::decode_study(with_member(study, name, std::nullopt));
    REQUIRE_FALSE(missing.ok());
    CHECK(missing.fault().detail == name + " is missing");
    const auto other = batch::decode_study(with_member(study, name, base::Json(true)));
    REQUIRE_FALSE(other.ok());
    CHECK(other.fault().detail.starts_with(name + " is n"));  // no text, not an array ...
  }
  const base::Json puzzle = *batch::encode({.ply = 0, .puzzles = {random.why_not({}, 0)}})
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
    CHECK(decoded.fault().detail == "puzzles[0]." + name + " is missing");
  }
  CHECK_FALSE(batch::decode_study(base::Json()).ok());
  CHECK_FALSE(batch::decode_findings(base::Json::array()).ok());
}

TEST_CASE("a record whose moves cannot be played is refused") {
  study::Study study;
  study.moves = {rules::Move::normal(rules::e2, rules::e4)};
  study.notes.resize(2);
  study.facts.result = "*";
  const base::Json json = batch::encode(study);
  REQUIRE(batch::decode_study(json).ok());
  for (const char* moves : {"e2e5", "e7e5", "e2e4 e2e4", "e2", "-", "e2e4 0000 x", "e2e4q"}) {
    CAPTURE(moves);
    CHECK_FALSE(batch::decode_study(with_member(json, "moves", base::Json(moves))).ok());
  }
  CHECK_FALSE(batch::decode_study(with_member(json, "start", base::Json("8/8 w"))).ok());
  CHECK_FALSE(batch::decode_study(with_member(json, "notes", base::Json::array())).ok());
}

namespace {

constexpr auto e4 = rules::Move::normal(rules::e2, rules::e4);

// Moments and puzzles as they may be, and as they may not: each lacks what is said in the fault.
struct Wrong {
  const char* fault;
  void (*make)(batch::Findings&);
};

// A swing in the start position, and the puzzle of it.
batch::Findings plain_findings() {
  batch::Findings findings{.ply = 0};
  study::Moment& moment = findings.moments.emplace_back();
  moment.played = rules::Move::normal(rules::f2, rules::f3);
  moment.best = rules::Move::normal(rules::e2, rules::e4);
  moment.line = {moment.best, rules::Move::normal(rules::e7, rules::e5)};
  moment.refutation = {rules::Move::normal(rules::e7, rules::e5)};
  puzzle::Puzzle& puzzle = findings.puzzles.emplace_back();
  puzzle.line = {moment.best};
  puzzle.tries = {{moment.played, -50, moment.refutation, {}}};
  return findings;
}

}  // namespace

TEST_CASE("a reason with a member missing, or with a name that is none, is refused") {
  batch::Findings findings = plain_findings();
  findings.moments[0].reasons.emplace_back().role = study::Role::note;
  const base::Json whole = batch::encode(findings);
  const base::Json plain = (*whole.find("moments")->elements())[0];
  const auto decoded = [&](const base::Json& changed) {
    const base::Json told = with_member(plain, "reasons", base::Json::array().push(changed));
    return batch::decode_findings(with_member(whole, "moments", base::Json::array().push(told)));
  };
  const base::Json good = (*plain.find("reasons")->elements())[0];
  REQUIRE(decoded(good).ok());
  for (const auto& [name, value] : *good.members()) {
    CAPTURE(name);
    const std::string way = "moments[0].reasons[0]." + name;
    CHECK(decoded(with_member(good, name, std::nullopt)).fault().detail == way + " is missing");
    CHECK(decoded(with_member(good, name, base::Json("?"))).fault().detail.starts_with(way));
  }
  CHECK_FALSE(decoded(with_member(good, "squares", base::Json::array().push(64))).ok());
  CHECK_FALSE(decoded(with_member(good, "favours", base::Json(2))).ok());
  CHECK_FALSE(decoded(with_member(good, "line", base::Json("e2e5"))).ok());
}

// A data table.
TEST_CASE("a moment or a puzzle that could not be told is refused with what is wrong with it") {
  using F = batch::Findings;
  using study::Kind;
  constexpr auto least = std::numeric_limits<int>::min();
  const std::vector<Wrong> all = {
      {"ply is not a whole number from 0 to 2147483647", [](F& f) { f.ply = -1; }},
      {"moments[0].ply is not a whole number from 0 to 2147483647",
       [](F& f) { f.moments[0].ply = least; }},
      {"moments[0].best_score is not a whole number from -32000 to 32000",
       [](F& f) { f.moments[0].best_score = least; }},
      {"moments[0].second_score is not a whole number from -32000 to 32000",
       [](F& f) { f.moments[0].second_score = search::mate_score + 1; }},
      {"moments[0].played_score is not a whole number from -32000 to 32000",
       [](F& f) { f.moments[0].played_score = -search::mate_score - 1; }},
      {"moments[0].gain is not a whole number from -20000 to 20000",
       [](F& f) { f.moments[0].gain = std::numeric_limits<int>::max(); }},
      {"moments[0].kind is not a whole number from 0 to 8",
       [](F& f) { f.moments[0].kind = static_cast<Kind>(study::kind_count); }},
      {"moments[0].played is no move",
       [](F& f) { f.moments[0].played = {}, f.moments[0].refutation.clear(); }},
      {"moments[0].played is a move at the end",
       [](F& f) { f.moments[0].kind = Kind::ended_early; }},
      {"moments[0].best is no move", [](F& f) { f.moments[0].best = {}; }},
      {"moments[0].best is no move", [](F& f) { f.moments[0].best = rules::null_move; }},
      {"moments[0].tempting is not what this kind has",
       [](F& f) { f.moments[0].kind = Kind::trap; }},
      {"moments[0].tempting is not what this kind has",
       [](F& f) { f.moments[0].tempting = rules::Move::normal(rules::a2, rules::a3); }},
      {"moments[0].line does not have 1 to 256 moves", [](F& f) { f.moments[0].line.clear(); }},
      {"moments[0].line does not begin with the best move",
       [](F& f) { f.moments[0].best = rules::Move::normal(rules::d2, rules::d4); }},
      {"moments[0].line cannot be played",
       [](F& f) {
         f.moments[0].line = {e4, e4};
       }},
      {"moments[0].refutation cannot be played", [](F& f) { f.moments[0].refutation = {e4}; }},
      {"moments[0].reasons[0].squares[0] is not a whole number from 0 to 63",
       [](F& f) { f.moments[0].reasons.emplace_back().squares = {rules::no_square}; }},
      {"moments[0].reasons[0].line cannot be played",
       [](F& f) {
         f.moments[0].reasons.emplace_back().line = {e4, e4};
       }},
      {"moments[0].reasons[0].squares are too few for this kind",
       [](F& f) { f.moments[0].reasons.emplace_back().kind = study::ReasonKind::pawn_runs; }},
      {"moments[0].reasons[0].means_squares are too few for this means",
       [](F& f) { f.moments[0].reasons.emplace_back().means = study::Means::fork; }},
      {"moments[0].reasons[0].means_pieces are not as many as their squares",
       [](F& f) { f.moments[0].reasons.emplace_back().means_pieces = {rules::pawn}; }},
      {"puzzles[0].line does not have 1 to 256 moves", [](F& f) { f.puzzles[0].line.clear(); }},
      {"puzzles[0].line does not end with a move of the solver",
       [](F& f) { f.puzzles[0].line = f.moments[0].line; }},
      {"puzzles[0].asked is not a part of the line", [](F& f) { f.puzzles[0].asked = 3; }},
      {"puzzles[0].asked is not a part of the line", [](F& f) { f.puzzles[0].asked = 2; }},
      {"puzzles[0].avoided does not lead to the position", [](F& f) { f.puzzles[0].avoided = e4; }},
      {"puzzles[0].find_rates[1] is not a whole number from 0 to 10000",
       [](F& f) { f.puzzles[0].find_rates[1] = 10'001; }},
      {"puzzles[0].tries[0].move is no move", [](F& f) { f.puzzles[0].tries[0].move = {}; }},
      {"puzzles[0].tries[0].score is not a whole number from -32000 to 32000",
       [](F& f) { f.puzzles[0].tries[0].score = least; }},
      {"puzzles[0].tries is not an array of 0 to 8 elements",
       [](F& f) { f.puzzles[0].tries.resize(9, f.puzzles[0].tries[0]); }},
      {"puzzles[0].difficulty is not a whole number from 1 to 5",
       [](F& f) { f.puzzles[0].difficulty = 6; }},
      {"puzzles[0].mate is not a whole number from 0 to 128",
       [](F& f) { f.puzzles[0].mate_moves = -1; }},
      {"drops[0] is not a whole number from 0 to 5",
       [](F& f) { f.drops = {static_cast<puzzle::Drop>(6)}; }},
  };
  REQUIRE(batch::decode_findings(batch::encode(plain_findings())).ok());
  for (const Wrong& wrong : all) {
    CAPTURE(wrong.fault);
    batch::Findings findings = plain_findings();
    wrong.make(findings);
    const auto decoded = batch::decode_findings(batch::encode(findings));
    REQUIRE_FALSE(decoded.ok());
    CHECK(decoded.fault().detail == wrong.fault);
  }
}

TEST_CASE("a study that could not be told is refused with what is wrong with it") {
  study::Study study;
  study.moves = {rules::Move::normal(rules::e2, rules::e4)};
  study.notes.resize(2);
  study.facts.result = "*";
  study.notes[1].lines = {{0, {rules::Move::normal(rules::e7, rules::e5)}}};
  REQUIRE(batch::decode_study(batch::encode(study)).ok());
  const auto fault_of = [&study](void (*make)(study::Study&)) {
    study::Study wrong = study;
    make(wrong);
    const auto decoded = batch::decode_study(batch::encode(wrong));
    REQUIRE_FALSE(decoded.ok());
    return decoded.fault().detail;
  };
  using S = study::Study;
  CHECK(fault_of([](S& s) { s.facts.result = "2-0"; }) ==
        "facts.result is no result of the PGN standard");
  CHECK(fault_of([](S& s) { s.facts.white_elo = -1; }) ==
        "facts.white_elo is not a whole number from 0 to 9999");
  CHECK(fault_of([](S& s) { s.facts.event.assign(40'000, 'x'); }) ==
        "facts.event is longer than 34,816 bytes");
  CHECK(fault_of([](S& s) { s.notes[1].lines[0].moves.clear(); }) ==
        "notes[1].lines[0].moves does not have 1 to 256 moves");
  CHECK(fault_of([](S& s) { s.notes[1].lines[0].score = std::numeric_limits<int>::min(); }) ==
        "notes[1].lines[0].score is not a whole number from -32000 to 32000");
  CHECK(fault_of([](S& s) { s.notes[0].clock_seconds = std::numeric_limits<int>::max(); }) ==
        "notes[0].clock is not a whole number from -1 to 3661000");
  CHECK(fault_of([](S& s) {
          s.notes[0].error_chances = {0, 1, 2, study::chance_of + 1};
        }) == "notes[0].chances[3] is not a whole number from -1 to 1000");
  CHECK(fault_of([](S& s) {
          s.notes[0].error_chances = {-2, 1, 2, 3};
        }) == "notes[0].chances[0] is not a whole number from -1 to 1000");
  CHECK(fault_of([](S& s) {
          s.notes[0].error_chances = {1, 2, study::no_chance, 3};
        }) == "notes[0].chances are known of some ratings only");
  CHECK(fault_of([](S& s) { s.notes.pop_back(); }) == "notes is not an array of 2 to 2 elements");
}
