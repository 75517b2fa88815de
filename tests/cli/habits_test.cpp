// kairos habits from outside: the numbers are the ledger's, and mistakes are told.
#include <catch2/catch.hpp>

#include "kairos/base/json.hpp"
#include "kairos/batch/ledger.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/settings.hpp"

#include "support/cli_program.hpp"
#include "support/random_studies.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

// Invented: three short games of one player.
constexpr const char* games =
    "[Event \"Club\"]\n[Date \"2025.01.10\"]\n[White \"Amber, Ida\"]\n[Black \"Birch, Jon\"]\n"
    "[Result \"1-0\"]\n\n1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# 1-0\n\n"
    "[Event \"Club\"]\n[Date \"2026.01.10\"]\n[White \"Birch, Jon\"]\n[Black \"Cedar, Kim\"]\n"
    "[Result \"0-1\"]\n\n1. d4 d5 2. Nf3 Nf6 3. Bf4 e6 4. e3 Bd6 5. Qd3 Bxf4 6. Qa3 Bxe3 "
    "7. Qxe3 O-O 8. Nc3 c5 9. O-O-O Nc6 10. Qg5 h6 11. Qh4 Nd4 0-1\n\n"
    "[Event \"Club\"]\n[Date \"2026.02.10\"]\n[White \"Cedar, Kim\"]\n[Black \"Birch, Joe\"]\n"
    "[Result \"0-1\"]\n\n1. f3 e5 2. g4 Qh4# 0-1\n\n";

Outcome scan_games(const TemporaryFolder& folder, std::vector<std::string> more = {}) {
  folder.write("games.pgn", games);
  std::vector<std::string> arguments = {"scan",    "games.pgn",      "-o",   "out",
                                        "--quiet", "--survey-nodes", "2000", "--verify-nodes",
                                        "3000",    "--puzzle-nodes", "3000"};
  arguments.insert(arguments.end(), more.begin(), more.end());
  return run_program({arguments, folder.path(), "", {}});
}

struct Counted {
  std::int64_t decisions = 0, errors = 0;
};

// Straight from the definition: decisions of the side in the ledger's surveys.
Counted count(const std::string& ledger_folder, const std::string& player) {
  base::FaultList faults;
  const auto ledger = batch::Ledger::read(ledger_folder, faults).value();
  Counted counted;
  for (const batch::InputGame& game : ledger.input()->games) {
    const study::Study study = ledger.survey(game.key).value();
    for (std::size_t i = 0; i < study.moves.size(); ++i) {
      const bool white = study::position_after(study, i).side_to_move() == rules::white;
      if ((white ? game.white : game.black) != player || study.notes[i].lines.size() < 2) continue;
      const double best = study::expectation(study.notes[i].lines[0].score);
      if (best > 0.97 || best < 0.03) continue;
      ++counted.decisions;
      if (best - study::expectation(study.notes[i].played_score) >= 0.10) ++counted.errors;
    }
  }
  return counted;
}

// A whole ledger of made-up games with random moves, in which "Birch, Jon" errs twice as often when
// he moves a knight and in moves 21 to 30, and everybody else alike.
void simulate_ledger(const std::string& ledger_folder, std::uint64_t seed) {
  constexpr int games_made = 200, plies = 80;
  constexpr double error_rate = 0.065;
  RandomStudies random(seed);
  base::FaultList faults;
  auto ledger =
      batch::Ledger::open(ledger_folder, {.version = "1", .settings = study::to_text({})}, faults);
  REQUIRE(ledger.ok());
  batch::Input input;
  input.files = {"made.pgn"};
  input.complete = true;
  while (input.games.size() < games_made) {
    study::Study study;
    study.moves = random.line(study.start, plies);
    if (study.moves.size() < plies) continue;
    const bool is_white = input.games.size() % 2 == 0;
    study.facts.white = is_white ? "Birch, Jon" : "Cedar, Kim";
    study.facts.black = is_white ? "Cedar, Kim" : "Birch, Jon";
    study.facts.date = "2026.01.01";
    study.facts.result = "*";
    study.facts.round = std::to_string(input.games.size() + 1);  // so that no two are the same
    rules::Position p = study.start;
    for (std::size_t i = 0; i <= plies; ++i) {
      study::Note& note = study.notes.emplace_back();
      if (i == plies) break;
      const rules::Move played = study.moves[i];
      note.lines = {{.score = 0, .moves = {random.move(p)}},
                    {.score = 0, .moves = {random.move(p)}}};
      double rate = error_rate;
      if ((p.side_to_move() == rules::white) == is_white) {
        if (rules::type_of(p.piece_on(played.from())) == rules::knight) rate *= 2;
        if (p.fullmove_number() > 20 && p.fullmove_number() <= 30) rate *= 2;
      }
      if (static_cast<double>(random.below(1'000'000)) < rate * 1'000'000) note.played_score = -60;
      p.play(played);
    }
    const std::string text = RandomStudies::text_of(study);
    batch::InputGame game{.key = batch::key_of(text), .number = input.games.size() + 1};
    game.white = study.facts.white;
    game.black = study.facts.black;
    REQUIRE(ledger->put_game(game.key, text).ok());
    REQUIRE(ledger->put_survey(game.key, study, {}).ok());
    input.games.push_back(game);
  }
  input.games_total = input.games.size();
  REQUIRE(ledger->put_input(input).ok());
}

}  // namespace

TEST_CASE("two habits planted in whole ledgers are named, each under its words", "[slow]") {
  constexpr int runs = 10;
  int knight = 0, band = 0, others = 0;
  for (int run = 0; run < runs; ++run) {
    TemporaryFolder folder;
    simulate_ledger(folder.path(), static_cast<std::uint64_t>(run + 1));
    const Outcome outcome =
        run_program({{"habits", "ledger", "--player", "Birch", "--against", "field", "--json"},
                     folder.path(),
                     "",
                     {}});
    REQUIRE(outcome.exit_code == 0);
    const base::Json json = base::parse_json(outcome.out).value();
    for (const base::Json& habit : *json.find("habits")->elements()) {
      const std::string words = *habit.find("habit")->text();
      if (words == "when moving a knight")
        ++knight;
      else if (words == "in moves 21 to 30")
        ++band;
      else
        ++others;
    }
  }
  WARN("of " << runs << " runs: knight " << knight << ", moves 21 to 30 " << band
             << ", not planted " << others);
  CHECK(knight >= 9);
  CHECK(band >= 9);
  CHECK(others <= 4);
}

TEST_CASE("habits counts what the ledger holds") {
  TemporaryFolder folder;
  REQUIRE(scan_games(folder).exit_code == 0);
  const Outcome outcome =
      run_program({{"habits", "out", "--player", "Jon Birch", "--json"}, folder.path(), "", {}});
  REQUIRE(outcome.exit_code == 0);
  const base::Json json = base::parse_json(outcome.out).value();
  const Counted counted = count(folder / "out", "Birch, Jon");
  REQUIRE(counted.errors > 0);
  CHECK(json.find("games")->integer() == 2);
  CHECK(json.find("all_player")->find("decisions")->integer() == counted.decisions);
  CHECK(json.find("all_player")->find("errors")->integer() == counted.errors);
  // Given twice, the games still count once.
  const Outcome twice = run_program(
      {{"habits", "out", "out/ledger", "--player", "Jon Birch", "--json"}, folder.path(), "", {}});
  CHECK(twice.out == outcome.out);
}

TEST_CASE("habits says in plain words when there are too few games") {
  TemporaryFolder folder;
  REQUIRE(scan_games(folder).exit_code == 0);
  const Outcome outcome =
      run_program({{"habits", "out", "--player", "birch jon"}, folder.path(), "", {}});
  CHECK(outcome.exit_code == 0);
  CHECK(outcome.out.find("In 2 games Birch, Jon had ") != std::string::npos);
  CHECK(outcome.out.find("too few to tell") != std::string::npos);
  const Outcome against = run_program(
      {{"habits", "out", "--player", "cedar", "--against", "out"}, folder.path(), "", {}});
  CHECK(against.exit_code == 0);
  CHECK(against.out.find("the players of out") != std::string::npos);
}

TEST_CASE("what is to be expected is known of errors of the usual cost alone") {
  TemporaryFolder folder;
  REQUIRE(scan_games(folder).exit_code == 0);
  const auto habits = [&folder](std::vector<std::string> words) {
    words.insert(words.begin(), {"habits", "out", "--player", "cedar", "--error-cost", "0.2"});
    return run_program({words, folder.path(), "", {}});
  };
  const Outcome refused = habits({});
  CHECK(refused.exit_code == 2);
  CHECK(refused.out.empty());
  CHECK(refused.err.find("--error-cost goes with --against field") != std::string::npos);
  const Outcome field = habits({"--against", "field", "--json"});
  CHECK(field.exit_code == 0);
  const base::Json json = base::parse_json(field.out).value();
  CHECK(*json.find("measure")->text() == "field");
  CHECK(json.find("expectation")->is_null());
  const Outcome usual =
      run_program({{"habits", "out", "--player", "cedar", "--json"}, folder.path(), "", {}});
  CHECK(*base::parse_json(usual.out).value().find("measure")->text() == "expectation");
}

TEST_CASE("habits tells who matches, and what is missing") {
  TemporaryFolder folder;
  REQUIRE(scan_games(folder).exit_code == 0);
  const Outcome several =
      run_program({{"habits", "out", "--player", "Birch"}, folder.path(), "", {}});
  CHECK(several.exit_code == 2);
  CHECK(several.err.find("Birch, Joe") != std::string::npos);
  CHECK(several.err.find("Birch, Jon") != std::string::npos);
  CHECK(run_program({{"habits", "out", "--player", "Nobody"}, folder.path(), "", {}}).exit_code ==
        2);
  CHECK(run_program({{"habits", "out"}, folder.path(), "", {}}).exit_code == 2);
  const Outcome missing =
      run_program({{"habits", "nowhere", "--player", "Birch"}, folder.path(), "", {}});
  CHECK(missing.exit_code == 3);
  CHECK(missing.err.find("nowhere") != std::string::npos);
}

TEST_CASE("habits does not count ledgers of different evaluations or definitions together") {
  TemporaryFolder folder;
  const auto write = [&folder](const std::string& name, const batch::RunHeader& header) {
    base::FaultList faults;
    std::filesystem::create_directory(folder / name);
    auto ledger = batch::Ledger::open(folder / name, header, faults);
    REQUIRE(ledger.ok());
    batch::Input input;
    input.files = {"made.pgn"};
    input.games_total = 1;
    input.games.push_back({.key = {}, .number = 1, .white = "Birch, Jon", .black = "Cedar, Kim"});
    REQUIRE(ledger->put_input(input).ok());
  };
  write("spring", {"1.0", "0a1b2c3d", 1, "survey=10", {}});
  write("summer", {"1.1", "0a1b2c3d", 1, "survey=20", {}});
  write("autumn", {"1.0", "deadbeef", 1, "survey=10", {}});
  write("winter", {"1.0", "0a1b2c3d", 2, "survey=10", {}});
  const auto habits = [&folder](std::vector<std::string> words) {
    words.insert(words.begin(), "habits");
    words.insert(words.end(), {"--player", "Birch"});
    return run_program({words, folder.path(), "", {}});
  };
  const Outcome alike = habits({"spring", "summer"});
  INFO(alike.err);
  CHECK(alike.exit_code == 0);
  const auto check_refused = [&](const std::vector<std::string>& words, const std::string& told) {
    const Outcome outcome = habits(words);
    CHECK(outcome.exit_code == 3);
    CHECK(outcome.out.empty());
    INFO(outcome.err);
    CHECK(outcome.err.find(told + " as in the first ledger") != std::string::npos);
    CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
  };
  check_refused({"spring", "autumn"}, "evaluation deadbeef, not 0a1b2c3d");
  check_refused({"spring", "winter"}, "definitions 2, not 1");
  check_refused({"spring", "--against", "autumn"}, "evaluation deadbeef, not 0a1b2c3d");
}

TEST_CASE("habits writes a training set") {
  TemporaryFolder folder;
  REQUIRE(scan_games(folder).exit_code == 0);
  const Outcome outcome =
      run_program({{"habits", "out", "--player", "Jon Birch", "--training", "mine.epd"},
                   folder.path(),
                   "",
                   {}});
  CHECK(outcome.exit_code == 0);
  CHECK(folder.read("mine.epd").empty());  // no habit, no puzzles
  CHECK(outcome.err.find("0 puzzles in mine.epd") != std::string::npos);
}

TEST_CASE("a scan for one player has the habits in its reports") {
  TemporaryFolder folder;
  REQUIRE(scan_games(folder, {"--player", "Jon Birch"}).exit_code == 0);
  CHECK(folder.read("out/report.txt").find("WHAT KEEPS COMING BACK") != std::string::npos);
  CHECK(folder.read("out/report.html").find("<section id=\"habits\">") != std::string::npos);
  TemporaryFolder everybody;
  REQUIRE(scan_games(everybody).exit_code == 0);
  CHECK(everybody.read("out/report.txt").find("WHAT KEEPS COMING BACK") == std::string::npos);
}

TEST_CASE("rates tells of every player, and takes several ledgers") {
  TemporaryFolder folder;
  REQUIRE(scan_games(folder).exit_code == 0);
  const Outcome outcome =
      run_program({{"rates", "out", "--from-move", "1", "--json"}, folder.path(), "", {}});
  REQUIRE(outcome.exit_code == 0);
  const base::Json json = base::parse_json(outcome.out).value();
  std::int64_t decisions = 0;
  for (const base::Json& player : *json.find("players")->elements()) {
    decisions += player.find("decisions")->integer().value();
  }
  CHECK(decisions > 0);
  const Outcome twice =
      run_program({{"rates", "out", "out", "--from-move", "1", "--json"}, folder.path(), "", {}});
  CHECK(twice.out == outcome.out);
  const Outcome text = run_program({{"rates", "out", "--from-move", "1"}, folder.path(), "", {}});
  CHECK(text.out.find("Birch, Jon") != std::string::npos);
  CHECK(run_program({{"rates", "nowhere"}, folder.path(), "", {}}).exit_code == 3);
}
