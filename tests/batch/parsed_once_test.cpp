// How often the text of a game is parsed. The linker puts the counting below in place of
// pgn::replay, which every text must pass to become a game (tests/CMakeLists.txt).
#include <atomic>
#include <catch2/catch.hpp>
#include <filesystem>

#include "kairos/batch/intake.hpp"
#include "kairos/batch/join.hpp"
#include "kairos/batch/runner.hpp"
#include "kairos/pgn/replay.hpp"

#include "support/small_games.hpp"
#include "support/small_run.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;

namespace {

std::atomic<std::size_t> parsed{0};

class NoProgress final : public batch::Progress {
 public:
  void show(const batch::Snapshot&) override {}
};

}  // namespace

pgn::Replay real_replay(pgn::Game& game, base::Diagnostics& diagnostics) __asm__(
    "__real__ZN6kairos3pgn6replayERNS0_4GameERNS_4base11DiagnosticsE");
pgn::Replay counted_replay(pgn::Game& game, base::Diagnostics& diagnostics) __asm__(
    "__wrap__ZN6kairos3pgn6replayERNS0_4GameERNS_4base11DiagnosticsE");

pgn::Replay counted_replay(pgn::Game& game, base::Diagnostics& diagnostics) {
  ++parsed;
  return real_replay(game, diagnostics);
}

namespace {

constexpr std::size_t games_in_file = 5, games_studied = 4;  // of support/small_games.hpp

// Surveys and verifies everything, with as many claims as the notes bring; then asks for every game
// as the reports do. Returns how many candidates there were.
std::size_t scan_and_report(batch::Ledger& ledger, const std::string& file) {
  const std::atomic<bool> go{false};
  const batch::Input input = batch::take_in({file}, ledger, go).value();
  CHECK(parsed == games_in_file);
  REQUIRE(ledger.put_input(input).ok());
  batch::SystemClock clock;
  NoProgress progress;
  batch::RunPlan plan;
  plan.settings = test::tiny_settings();
  plan.threads = 2;
  REQUIRE(batch::run(ledger, input, plan, clock, progress).ok());
  std::size_t candidates = 0;
  for (const batch::InputGame& game : input.games) {
    candidates += ledger.plies(game.key).size();
    REQUIRE(ledger.scoresheet(game.key).ok());
  }
  return candidates;
}

batch::RunHeader header_of(batch::Part part) {
  batch::RunHeader header = test::small_run_header;
  header.settings = study::to_text(test::tiny_settings());
  header.part = part;
  return header;
}

}  // namespace

TEST_CASE("a scan parses each game that it reads once, for study and reports too") {
  const test::TemporaryFolder folder;
  folder.write("games.pgn", std::string(test::small_games));
  base::FaultList faults;
  auto ledger = batch::Ledger::open(folder.path(), header_of({}), faults).value();
  parsed = 0;
  REQUIRE(scan_and_report(ledger, folder / "games.pgn") > games_studied);
  CHECK(parsed == games_in_file);
}

TEST_CASE("joining parses each game once, for the parts, the whole and the reports together") {
  const test::TemporaryFolder folder;
  folder.write("games.pgn", std::string(test::small_games));
  std::vector<std::string> parts;
  for (const int number : {1, 2}) {
    parts.push_back(folder / std::to_string(number));
    std::filesystem::create_directory(parts.back());
    base::FaultList faults;
    auto ledger = batch::Ledger::open(parts.back(), header_of({number, 2}), faults).value();
    const std::atomic<bool> go{false};
    const batch::Input input = batch::take_in({folder / "games.pgn"}, ledger, go).value();
    REQUIRE(ledger.put_input(input).ok());
  }
  parsed = 0;
  base::FaultList faults;
  const auto joined = batch::join(parts, folder / "out", faults);
  REQUIRE(joined.ok());
  for (const batch::InputGame& game : joined->input()->games) {
    CHECK(joined->scoresheet(game.key).ok());
  }
  CHECK(parsed == games_studied);
}
