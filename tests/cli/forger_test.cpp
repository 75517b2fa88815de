// Ledgers with right checksums and wrong contents: what is read of them can be told.
#include "support/forger.hpp"

#include <catch2/catch.hpp>
#include <filesystem>

#include "kairos/batch/join.hpp"

#include "support/small_scan.hpp"
#include "support/temporary_folder.hpp"
#include "support/told_ledger.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

// A real ledger of the small games, and the forger of others like it.
struct Workshop {
  Workshop() {
    folder.write("games.pgn", std::string(small_games));
    REQUIRE(small_scan(folder.path(), games()).ok());
    real = folder.read("ledger");
  }
  [[nodiscard]] std::string games() const { return folder / "games.pgn"; }

  TemporaryFolder folder;
  std::string real;
};

const Workshop& workshop() {
  static const Workshop made;
  return made;
}

struct Read {
  std::optional<batch::Ledger> ledger;
  base::Faults told;
};

Read read(const std::string& path) {
  base::FaultList told;
  auto ledger = batch::Ledger::read(path, told);
  if (!ledger) return {std::nullopt, std::move(told.faults)};
  return {std::move(*ledger), std::move(told.faults)};
}

// What is read of it holds, nothing is lost in silence, and it can be reported.
// Returns whether something was told.
bool check_reading(const std::string& path, const std::vector<std::string>& payloads) {
  const Read forged = read(path);
  if (!forged.ledger) return true;
  for (const base::Fault& fault : forged.told) {
    INFO(base::describe(fault));
    REQUIRE(fault.place.file == path);
    REQUIRE(fault.place.line > 1);
    REQUIRE_FALSE(fault.detail.empty());
  }
  const std::size_t lost = lost_record(payloads, *forged.ledger, forged.told);
  INFO("neither read nor told: " << (lost == 0 ? "nothing" : payloads[lost - 1].substr(0, 2000)));
  REQUIRE(lost == 0);
  if (!forged.ledger->input()) return true;
  REQUIRE(wrong_in(*forged.ledger) == "");
  REQUIRE_FALSE(reports_of(*forged.ledger).empty());
  return !forged.told.empty();
}

// Joined, what is left of it is a ledger without damage.
void check_joining(const TemporaryFolder& folder) {
  std::filesystem::remove_all(folder / "joined");
  base::FaultList told;
  {
    const auto joined = batch::join({folder / "ledger"}, folder / "joined", told);
    if (!joined) return;
    REQUIRE(wrong_in(*joined) == "");
    REQUIRE_FALSE(reports_of(*joined).empty());
  }
  const Read again = read(folder / "joined/ledger");
  REQUIRE(again.ledger);
  REQUIRE(again.told.empty());
}

// Gone on with, it is finished and whole.
void check_resuming(const TemporaryFolder& folder) {
  const auto ending = small_scan(folder.path(), workshop().games());
  if (!ending) {  // of other settings or another version
    REQUIRE(ending.fault().place.file == folder / "ledger");
    return;
  }
  REQUIRE(*ending == batch::Ending::finished);
  const Read finished = read(folder / "ledger");
  REQUIRE(finished.ledger);
  REQUIRE(finished.told.empty());
  REQUIRE(finished.ledger->input()->games.size() == 4);
  REQUIRE(wrong_in(*finished.ledger) == "");
  for (const batch::InputGame& game : finished.ledger->input()->games) {
    REQUIRE(finished.ledger->has_survey(game.key));
  }
  REQUIRE_FALSE(reports_of(*finished.ledger).empty());
}

// `joined`, `resumed`: every so many are joined or gone on with, which takes longer.
void check_forged_ledgers(std::uint64_t first_seed, std::uint64_t count, std::uint64_t joined,
                          std::uint64_t resumed) {
  const Forger forger(workshop().real);
  const TemporaryFolder folder;
  std::uint64_t told = 0;
  for (std::uint64_t seed = first_seed; seed < first_seed + count; ++seed) {
    CAPTURE(seed);
    Choices choices(seed);
    const std::vector<std::string> payloads = forger.forge(choices);
    folder.write("ledger", ledger_of(payloads));
    told += check_reading(folder / "ledger", payloads) ? 1 : 0;
    if (seed % joined == 0) check_joining(folder);
    if (seed % resumed == 0) check_resuming(folder);
  }
  CHECK(told > count / 2);  // else they are not forged enough
}

}  // namespace

TEST_CASE("two hundred forged ledgers: what is read holds, the rest is told, reports are made") {
  check_forged_ledgers(1, 200, 5, 40);
}

TEST_CASE("eighteen hundred forged ledgers more, joined and resumed often", "[.long]") {
  check_forged_ledgers(201, 1'800, 2, 10);
}
