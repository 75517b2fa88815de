// The whole work on small games: the same records however it was done.
#include "kairos/batch/runner.hpp"

#include <catch2/catch.hpp>
#include <random>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include "kairos/base/files.hpp"
#include "kairos/batch/intake.hpp"
#include "kairos/batch/join.hpp"

#include "support/small_games.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using batch::Ending;
using test::TemporaryFolder;

namespace {

using Time = batch::Clock::Time;

// Goes on by a second with every look at it. Sets `stop`, where there is one, at the second: the
// run has taken its first task then.
class FakeClock final : public batch::Clock {
 public:
  explicit FakeClock(std::atomic<bool>* stop) : stop_(stop) {}
  Time now() override {
    time += std::chrono::seconds(1);
    if (++looks_ == 2 && stop_ != nullptr) stop_->store(true);
    return time;
  }
  Time time{};

 private:
  std::atomic<bool>* stop_;
  int looks_ = 0;
};

class Snapshots final : public batch::Progress {
 public:
  void show(const batch::Snapshot& snapshot) override { all.push_back(snapshot); }
  std::vector<batch::Snapshot> all;
};

struct How {
  unsigned threads = 1;
  batch::Part part{};
  batch::Focus focus{};
  std::optional<int> looks_at_clock{};  // until the deadline
  const std::atomic<bool>* stop = nullptr;
  std::atomic<bool>* stop_in_first_task = nullptr;
};

const std::atomic<bool> go{false};

base::Result<Ending> scan(const std::string& folder, const std::string& games, const How& how,
                          Snapshots& snapshots) {
  base::FaultList faults;
  const study::Settings settings = test::tiny_settings();
  auto ledger = batch::Ledger::open(
      folder, {"1.0", "0a1b2c3d", 1, study::to_text(settings), how.part}, faults);
  if (!ledger) return ledger.faults();
  auto input = batch::take_in({games}, *ledger, go);
  if (!input) return input.faults();
  if (auto put = ledger->put_input(*input); !put) return put.faults();
  FakeClock clock(how.stop_in_first_task);
  batch::RunPlan plan{
      .settings = settings,
      .focus = how.focus,
      .threads = how.threads,
      .deadline = {},
      .stop = how.stop_in_first_task != nullptr ? how.stop_in_first_task : how.stop};
  if (how.looks_at_clock) plan.deadline = clock.time + std::chrono::seconds(*how.looks_at_clock);
  return batch::run(*ledger, *input, plan, clock, snapshots);
}

Ending scan(const std::string& folder, const std::string& games, const How& how = {}) {
  Snapshots ignored;
  const auto ending = scan(folder, games, how, ignored);
  REQUIRE(ending.ok());
  return *ending;
}

// All records of a folder, in the order of the games.
struct Records {
  std::vector<study::Study> studies;
  std::vector<batch::Findings> findings;

  [[nodiscard]] std::size_t moments() const {
    std::size_t count = 0;
    for (const batch::Findings& f : findings) {
      count += static_cast<std::size_t>(std::ranges::count_if(
          f.moments, [](const study::Moment& m) { return m.kind != study::Kind::slip; }));
    }
    return count;
  }
  friend bool operator==(const Records&, const Records&) = default;
};

Records records_of(const batch::Ledger& ledger) {
  Records records;
  REQUIRE(ledger.input());
  for (const batch::InputGame& game : ledger.input()->games) {
    if (!ledger.has_survey(game.key)) continue;
    records.studies.push_back(ledger.survey(game.key).value());
    for (const int ply : ledger.plies(game.key)) {
      records.findings.push_back(ledger.findings(game.key, ply).value());
    }
  }
  return records;
}

Records records_of(const std::string& folder) {
  base::FaultList faults;
  const auto ledger = batch::Ledger::read(batch::Ledger::path_in(folder), faults);
  REQUIRE(ledger.ok());
  CHECK(faults.faults.empty());
  return records_of(*ledger);
}

// The games, and what an undisturbed run with one thread makes of them.
struct Reference {
  Reference() {
    folder.write("games.pgn", std::string(test::small_games));
    scan(folder.path(), games());
    records = records_of(folder.path());
  }
  [[nodiscard]] std::string games() const { return folder / "games.pgn"; }

  TemporaryFolder folder;
  Records records;
};

const Reference& reference() {
  static const Reference made;
  return made;
}

std::string bytes_of_ledger(const std::string& folder) {
  auto bytes = base::read_file(batch::Ledger::path_in(folder));
  REQUIRE(bytes.ok());
  return *bytes;
}

}  // namespace

TEST_CASE("a run surveys every game and verifies every candidate") {
  CHECK(reference().records.studies.size() == 4);
  CHECK(reference().records.moments() > 0);
}

TEST_CASE("any number of threads gives the same records in the same bytes") {
  for (const unsigned threads : {2u, 5u}) {
    const TemporaryFolder folder;
    CHECK(scan(folder.path(), reference().games(), {.threads = threads}) == Ending::finished);
    CHECK(records_of(folder.path()) == reference().records);
    CHECK(bytes_of_ledger(folder.path()) == bytes_of_ledger(reference().folder.path()));
  }
}

TEST_CASE("a second run on a finished folder adds nothing") {
  const TemporaryFolder folder;
  scan(folder.path(), reference().games());
  const Records before = records_of(folder.path());
  Snapshots snapshots;
  REQUIRE(scan(folder.path(), reference().games(), {}, snapshots).ok());
  CHECK(snapshots.all.empty());
  CHECK(records_of(folder.path()) == before);
}

TEST_CASE("a run that is stopped again and again comes to the same records") {
  const TemporaryFolder folder;
  int runs = 0;
  for (int looks = 4;; ++runs) {
    const Ending ending = scan(folder.path(), reference().games(), {.looks_at_clock = looks});
    if (ending == Ending::finished) break;
    CHECK(ending == Ending::out_of_time);
    REQUIRE(runs < 1000);
  }
  CHECK(runs > 1);
  CHECK(records_of(folder.path()) == reference().records);
  CHECK(bytes_of_ledger(folder.path()) == bytes_of_ledger(reference().folder.path()));
}

TEST_CASE("a deadline that has passed lets nothing begin") {
  const TemporaryFolder folder;
  CHECK(scan(folder.path(), reference().games(), {.looks_at_clock = 0}) == Ending::out_of_time);
  CHECK(records_of(folder.path()).studies.empty());
}

TEST_CASE("a deadline ends the verifying, not the survey of games before it") {
  const TemporaryFolder folder;
  // Each task looks at the clock a few times: enough for the four surveys and little more.
  CHECK(scan(folder.path(), reference().games(), {.looks_at_clock = 20}) == Ending::out_of_time);
  const Records records = records_of(folder.path());
  CHECK(records.studies.size() == 4);
  CHECK(records.findings.size() < reference().records.findings.size());
}

TEST_CASE("a stop asked for before the start lets nothing begin, and the ledger is good") {
  const TemporaryFolder folder;
  const std::atomic<bool> stop{true};
  CHECK(scan(folder.path(), reference().games(), {.threads = 2, .stop = &stop}) ==
        Ending::interrupted);
  CHECK(scan(folder.path(), reference().games()) == Ending::finished);
  CHECK(records_of(folder.path()) == reference().records);
}

TEST_CASE("a stop in the survey of a very long game is obeyed before its end") {
  const TemporaryFolder folder, other;
  std::string text;
  for (std::size_t i = 0; i <= study::most_waited_for; i += 4) text += "Nf3 Nf6 Ng1 Ng8\n";
  folder.write("long.pgn", text + "1/2-1/2\n");
  std::atomic<bool> stop{false};
  CHECK(scan(other.path(), folder / "long.pgn", {.stop_in_first_task = &stop}) ==
        Ending::interrupted);
  CHECK(records_of(other.path()).studies.empty());
  CHECK(scan(other.path(), folder / "long.pgn") == Ending::finished);
  CHECK(records_of(other.path()).studies.size() == 1);
}

TEST_CASE("killed at random moments and started again, a run ends with the same bytes") {
  const auto seed = 42u;
  CAPTURE(seed);
  std::mt19937 random(seed);
  const TemporaryFolder folder;
  const std::string games = reference().games();  // made here, not in the children
  int killed = 0;
  for (int round = 0; round < 20; ++round) {
    const pid_t child = ::fork();
    if (child == 0) {
      Snapshots ignored;
      ::_exit(scan(folder.path(), games, {.threads = 2}, ignored).ok() ? 0 : 1);
    }
    ::usleep(std::uniform_int_distribution<useconds_t>(0, 30'000)(random));
    ::kill(child, SIGKILL);
    int status = 0;
    ::waitpid(child, &status, 0);
    if (WIFSIGNALED(status))
      ++killed;
    else
      CHECK(WEXITSTATUS(status) == 0);
  }
  WARN("killed " << killed << " of 20 times before the end");
  CHECK(scan(folder.path(), reference().games()) == Ending::finished);
  base::FaultList faults;
  const auto ledger = batch::Ledger::read(batch::Ledger::path_in(folder.path()), faults);
  REQUIRE(ledger.ok());
  CHECK(records_of(*ledger) == reference().records);
  CHECK(bytes_of_ledger(folder.path()) == bytes_of_ledger(reference().folder.path()));
}

TEST_CASE("parts studied apart and joined are the whole run") {
  const TemporaryFolder folder;
  std::vector<std::string> parts;
  for (int number = 3; number >= 1; --number) {
    parts.push_back(folder / ("part" + std::to_string(number)));
    std::filesystem::create_directory(parts.back());
    scan(parts.back(), reference().games(), {.part = {number, 3}});
  }
  base::FaultList faults;
  {
    const auto joined = batch::join(parts, folder / "out", faults);
    REQUIRE(joined.ok());
    CHECK(faults.faults.empty());
    CHECK(records_of(*joined) == reference().records);
    CHECK(joined->header().part.whole());
  }
  CHECK(bytes_of_ledger(folder / "out") == bytes_of_ledger(reference().folder.path()));
  // The joined folder is a run like any other, and has nothing left to do.
  Snapshots snapshots;
  REQUIRE(scan(folder / "out", reference().games(), {}, snapshots).ok());
  CHECK(snapshots.all.empty());

  const auto some = batch::join({parts[0], parts[2] + "/ledger"}, folder / "some", faults);
  REQUIRE(some.ok());
  REQUIRE(faults.faults.size() == 1);
  CHECK(faults.faults.front().code == base::Code::ledger_part_missing);
  CHECK(faults.faults.front().detail == "2/3");
}

TEST_CASE("joined again when the missing part is there, the ledger is the whole run's") {
  const TemporaryFolder folder;
  std::vector<std::string> parts;
  for (int number = 1; number <= 3; ++number) {
    parts.push_back(folder / ("part" + std::to_string(number)));
    std::filesystem::create_directory(parts.back());
    scan(parts.back(), reference().games(), {.part = {number, 3}});
  }
  base::FaultList faults;
  REQUIRE(batch::join({parts[2], parts[0]}, folder / "out", faults).ok());
  CHECK(bytes_of_ledger(folder / "out") != bytes_of_ledger(reference().folder.path()));
  REQUIRE(batch::join({parts[1]}, folder / "out", faults).ok());
  CHECK(bytes_of_ledger(folder / "out") == bytes_of_ledger(reference().folder.path()));
  // What is in order already stays as it is.
  const auto before = std::filesystem::last_write_time(folder / "out/ledger");
  REQUIRE(batch::join(parts, folder / "out", faults).ok());
  CHECK(std::filesystem::last_write_time(folder / "out/ledger") == before);
}

TEST_CASE("ledgers of different runs are not joined") {
  const TemporaryFolder folder;
  folder.write("other.pgn", "1. e4 *\n");
  for (const char* name : {"a", "b", "c"}) std::filesystem::create_directory(folder / name);
  scan(folder / "a", reference().games(), {.part = {1, 2}});
  scan(folder / "b", folder / "other.pgn", {.part = {2, 2}});
  scan(folder / "c", reference().games(), {.part = {3, 3}});
  base::FaultList faults;
  const auto join = [&](std::vector<std::string> names) {
    for (std::string& name : names) name = folder / name;
    return batch::join(names, folder / "out", faults);
  };
  CHECK(join({"a", "b"}).fault().code == base::Code::ledger_settings_differ);
  CHECK(join({"a", "c"}).fault().code == base::Code::ledger_settings_differ);
  CHECK(join({"a", "absent"}).fault().code == base::Code::cannot_open);
  CHECK_FALSE(std::filesystem::exists(folder / "out"));
}

TEST_CASE("ledgers of another evaluation or other definitions are not joined") {
  const TemporaryFolder folder;
  const batch::RunHeader first{"1.0", "0a1b2c3d", 1, "survey=10", {1, 2}};
  std::vector<batch::RunHeader> others(2, first);
  others[0].evaluation = "deadbeef";
  others[1].definitions = 2;
  base::FaultList faults;
  const auto write = [&](const std::string& name, const batch::RunHeader& header) {
    std::filesystem::create_directory(folder / name);
    auto ledger = batch::Ledger::open(folder / name, header, faults);
    REQUIRE(ledger.ok());
    batch::Input input;
    input.complete = true;
    REQUIRE(ledger->put_input(input).ok());
  };
  write("a", first);
  write("b", others[0]);
  write("c", others[1]);
  const auto refused = [&](const char* name) {
    const auto joined = batch::join({folder / "a", folder / name}, folder / "out", faults);
    REQUIRE_FALSE(joined.ok());
    CHECK(joined.fault().code == base::Code::ledger_evaluation);
    CHECK(joined.fault().place.file == folder / (std::string(name) + "/ledger"));
    return joined.fault().detail;
  };
  const std::string as_there = " as in " + folder / "a/ledger";
  CHECK(refused("b") == "evaluation deadbeef, not 0a1b2c3d" + as_there);
  CHECK(refused("c") == "definitions 2, not 1" + as_there);
  CHECK_FALSE(std::filesystem::exists(folder / "out"));
}

TEST_CASE("more games later: only the new ones are studied, and all are there") {
  const TemporaryFolder folder;
  const std::string all(test::small_games);
  const auto second = all.find("[Event", 1), third = all.find("[Event", second + 1);
  folder.write("games.pgn", all.substr(second, third - second));
  scan(folder.path(), folder / "games.pgn");
  folder.write("games.pgn", all);
  Snapshots snapshots;
  REQUIRE(scan(folder.path(), folder / "games.pgn", {}, snapshots).ok());
  CHECK(snapshots.all.front().surveyed == 2);
  CHECK(records_of(folder.path()) == reference().records);
}

TEST_CASE("with a focus less is done, and the rest can follow") {
  const TemporaryFolder folder;
  scan(folder.path(), reference().games(), {.focus = {{"Bellini, Gia"}}});
  CHECK(records_of(folder.path()).studies.size() == 2);
  scan(folder.path(), reference().games());
  CHECK(records_of(folder.path()) == reference().records);
}

TEST_CASE("progress counts up to the whole") {
  const TemporaryFolder folder;
  Snapshots snapshots;
  REQUIRE(scan(folder.path(), reference().games(), {}, snapshots).ok());
  REQUIRE_FALSE(snapshots.all.empty());
  const batch::Snapshot& last = snapshots.all.back();
  CHECK(last.games == 4);
  CHECK(last.surveyed == 4);
  CHECK(last.candidates == last.verified);
  CHECK(last.moments == reference().records.moments());
  CHECK(last.nodes > 0);
  CHECK(last.seconds_left == 0.0);
  for (std::size_t i = 1; i < snapshots.all.size(); ++i) {
    CHECK(snapshots.all[i].seconds >= snapshots.all[i - 1].seconds);
    CHECK(snapshots.all[i].verified >= snapshots.all[i - 1].verified);
  }
}
