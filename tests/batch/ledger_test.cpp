// The ledger's promises: what was written is there again, however the file was hurt.
#include "kairos/batch/ledger.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <csignal>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "support/random_studies.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using base::Code;
using base::FaultList;
using batch::Ledger;
using test::RandomStudies;
using test::TemporaryFolder;

namespace {

const batch::RunHeader header{.version = "1.0", .settings = "survey=10 verify=20", .part = {}};

// A small run of two games in `folder`, the same each time.
struct SmallRun {
  explicit SmallRun(std::uint64_t seed = 1) {
    RandomStudies random(seed);
    for (const char* text : {"first game\n", "second game\n"}) {
      texts.emplace_back(text);
      studies.push_back(random.study(3));
      studies.back().pgn = texts.back();
      findings.push_back({.ply = 2, .moments = {random.moment(2)}, .puzzles = {random.puzzle(2)}});
      findings.back().drops = {puzzle::Drop::cook};
    }
    input.files = {"a.pgn"};
    input.games_total = 3;
    input.faults = {{Code::illegal_move, "Bf3", {"a.pgn", 7, 3, 2}}};
    input.complete = true;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      input.games.push_back({key(i), i + 1, 0, i * 10, "Rosin", "Bellini"});
    }
  }

  [[nodiscard]] batch::GameKey key(std::size_t i) const { return batch::key_of(texts[i]); }

  // Puts what is not there yet.
  [[nodiscard]] bool put_into(Ledger& ledger) const {
    bool good = true;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      if (!ledger.has_game(key(i))) good &= ledger.put_game(key(i), texts[i]).ok();
    }
    if (!ledger.input()) good &= ledger.put_input(input).ok();
    for (std::size_t i = 0; i < texts.size(); ++i) {
      if (!ledger.has_survey(key(i))) {
        good &= ledger.put_survey(key(i), studies[i], candidates).ok();
      }
      if (ledger.plies(key(i)).empty()) good &= ledger.put_findings(key(i), findings[i]).ok();
    }
    return good;
  }

  [[nodiscard]] bool is_whole_in(const Ledger& ledger) const {
    if (!ledger.input() || ledger.input()->games != input.games) return false;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const auto study = ledger.survey(key(i));
      const auto found = ledger.findings(key(i), 2);
      if (!study.ok() || !found.ok() || !(*study == studies[i]) || !(*found == findings[i]) ||
          ledger.candidates(key(i)) != candidates) {
        return false;
      }
    }
    return true;
  }

  std::vector<std::string> texts;
  std::vector<study::Study> studies;
  std::vector<batch::Findings> findings;
  std::vector<study::Candidate> candidates = {{2, 0.3333333333333333}, {0, 0.1}};
  batch::Input input;
};

// Opened, filled up and closed again: how a run goes on.
bool resumes(const std::string& folder, const SmallRun& run) {
  FaultList ignored;
  auto ledger = Ledger::open(folder, header, ignored);
  return ledger.ok() && run.put_into(*ledger) && run.is_whole_in(*ledger);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = std::min(text.find('\n', at), text.size() - 1) + 1;
    lines.push_back(text.substr(at, end - at));
    at = end;
  }
  return lines;
}

}  // namespace

TEST_CASE("what was put into a ledger is there when it is opened again") {
  const TemporaryFolder folder;
  const SmallRun run;
  REQUIRE(resumes(folder.path(), run));
  FaultList faults;
  const auto ledger = Ledger::open(folder.path(), header, faults);
  REQUIRE(ledger.ok());
  CHECK(run.is_whole_in(*ledger));
  CHECK(faults.faults.empty());
  CHECK(ledger->length(run.key(0)) == 3);
  CHECK(ledger->first_side(run.key(1)) == run.studies[1].start.side_to_move());
  const auto& fault = ledger->input()->faults.front();
  CHECK(base::describe(fault) == base::describe(run.input.faults.front()));
  CHECK(ledger->input()->skipped() == 1);
}

TEST_CASE("the format is the documented one") {
  const TemporaryFolder folder;
  REQUIRE(resumes(folder.path(), SmallRun{}));
  const auto lines = lines_of(folder.read("ledger"));
  REQUIRE(lines.size() == 9);
  CHECK(lines[0] == "kairos ledger 2\n");
  CHECK(lines[1].substr(8) ==
        " {\"record\":\"run\",\"version\":\"1.0\",\"settings\":\"survey=10 verify=20\","
        "\"part\":[1,1]}\n");
  CHECK(lines[2].substr(9, 25) == "{\"record\":\"game\",\"game\":\"");
}

TEST_CASE("a ledger cut at any byte is opened, and loses no more than the torn record") {
  const TemporaryFolder whole, folder;
  const SmallRun run;
  REQUIRE(resumes(whole.path(), run));
  const std::string bytes = whole.read("ledger");
  const std::size_t last_record = bytes.rfind('\n', bytes.size() - 2) + 1;
  for (std::size_t cut = 0; cut <= bytes.size(); ++cut) {
    CAPTURE(cut);
    const std::string kept = bytes.substr(0, cut);
    folder.write("ledger", kept);
    FaultList faults;
    {
      const auto ledger = Ledger::open(folder.path(), header, faults);
      REQUIRE(ledger.ok());
    }
    const bool torn = !kept.empty() && !kept.ends_with('\n');
    REQUIRE(faults.faults.size() == (torn ? 1 : 0));
    if (torn) REQUIRE(faults.faults.front().code == Code::ledger_torn_tail);
    const std::string good = kept.substr(0, kept.rfind('\n') + 1);
    REQUIRE(folder.read("ledger").starts_with(good));
    // To go on from there takes longer: every 13th place, and all of the last record.
    if (cut % 13 != 0 && cut < last_record) continue;
    REQUIRE(resumes(folder.path(), run));
    // From the second line on the ledger grows as it grew before.
    if (lines_of(kept).size() >= 2 && !torn) REQUIRE(folder.read("ledger") == bytes);
  }
}

TEST_CASE("a damaged line anywhere costs that record alone, is told once, and is done again") {
  const TemporaryFolder whole, folder;
  const SmallRun run;
  REQUIRE(resumes(whole.path(), run));
  const auto lines = lines_of(whole.read("ledger"));
  for (std::size_t damaged = 1; damaged < lines.size(); ++damaged) {
    for (const std::size_t at :
         {std::size_t{0}, std::size_t{8}, std::size_t{12}, lines[damaged].size() - 2}) {
      CAPTURE(damaged, at);
      std::string bytes;
      for (std::size_t i = 0; i < lines.size(); ++i) {
        std::string line = lines[i];
        if (i == damaged) line[at] = static_cast<char>(line[at] ^ 4);
        bytes += line;
      }
      folder.write("ledger", bytes);
      FaultList faults;
      {
        const auto ledger = Ledger::open(folder.path(), header, faults);
        REQUIRE(ledger.ok());
        int missing = 0;
        for (std::size_t i = 0; i < run.texts.size(); ++i) {
          missing += ledger->has_game(run.key(i)) ? 0 : 1;
          missing += ledger->has_survey(run.key(i)) ? 0 : 1;
          missing += ledger->plies(run.key(i)).empty() ? 1 : 0;
        }
        missing += ledger->input() ? 0 : 1;
        REQUIRE(missing == (damaged == 1 ? 0 : 1));
      }
      REQUIRE(faults.faults.size() == 1);
      REQUIRE(faults.faults.front().code == Code::ledger_damaged);
      REQUIRE(faults.faults.front().place.line == damaged + 1);
      REQUIRE(resumes(folder.path(), run));
      FaultList healed;
      REQUIRE(Ledger::open(folder.path(), header, healed).ok());
      REQUIRE(healed.faults.empty());
    }
  }
  CHECK(folder.names() == std::vector<std::string>{"ledger"});
}

TEST_CASE("two lines run together by a damaged line end cost these two alone") {
  const TemporaryFolder folder;
  const SmallRun run;
  REQUIRE(resumes(folder.path(), run));
  std::string bytes = folder.read("ledger");
  const auto second_end = bytes.find('\n', bytes.find('\n') + 1);
  bytes[bytes.find('\n', second_end + 1)] = ' ';  // between the two games
  folder.write("ledger", bytes);
  FaultList faults;
  const auto ledger = Ledger::open(folder.path(), header, faults);
  REQUIRE(ledger.ok());
  CHECK(faults.faults.size() == 1);
  CHECK_FALSE(ledger->has_game(run.key(0)));
  CHECK_FALSE(ledger->has_game(run.key(1)));
  CHECK(ledger->has_survey(run.key(0)));
}

TEST_CASE("later records win") {
  const TemporaryFolder folder;
  const SmallRun run;
  REQUIRE(resumes(folder.path(), run));
  batch::Findings other = run.findings[0];
  other.drops.clear();
  FaultList faults;
  {
    auto ledger = Ledger::open(folder.path(), header, faults);
    REQUIRE(ledger->put_findings(run.key(0), other).ok());
    CHECK(ledger->findings(run.key(0), 2).value() == other);
  }
  CHECK(Ledger::open(folder.path(), header, faults)->findings(run.key(0), 2).value() == other);
}

TEST_CASE("a second one on the same folder is refused while the first is open") {
  const TemporaryFolder folder;
  FaultList faults;
  {
    const auto first = Ledger::open(folder.path(), header, faults);
    REQUIRE(first.ok());
    const auto second = Ledger::open(folder.path(), header, faults);
    REQUIRE_FALSE(second.ok());
    CHECK(second.fault().code == Code::ledger_in_use);
  }
  CHECK(Ledger::open(folder.path(), header, faults).ok());
}

TEST_CASE("the lock outlives the writing anew of a damaged ledger") {
  const TemporaryFolder folder;
  REQUIRE(resumes(folder.path(), SmallRun{}));
  std::string bytes = folder.read("ledger");
  bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 1);
  folder.write("ledger", bytes);
  FaultList faults;
  const auto first = Ledger::open(folder.path(), header, faults);
  REQUIRE(first.ok());
  CHECK(Ledger::open(folder.path(), header, faults).fault().code == Code::ledger_in_use);
}

TEST_CASE("other settings, another part and another version are refused with the difference") {
  const TemporaryFolder folder;
  FaultList faults;
  REQUIRE(resumes(folder.path(), SmallRun{}));
  const std::string before = folder.read("ledger");
  const auto refused = [&](const batch::RunHeader& other) {
    const auto ledger = Ledger::open(folder.path(), other, faults);
    REQUIRE_FALSE(ledger.ok());
    CHECK(folder.read("ledger") == before);
    return ledger.fault();
  };
  batch::RunHeader other = header;
  other.settings = "survey=10 verify=30";
  CHECK(refused(other).code == Code::ledger_settings_differ);
  CHECK(refused(other).detail == "verify=20 then, verify=30 now");
  other = header;
  other.part = {2, 3};
  CHECK(refused(other).code == Code::ledger_settings_differ);
  CHECK(refused(other).detail == "part 1/1 then, part 2/3 now");
  other = header;
  other.version = "1.1";
  CHECK(refused(other).code == Code::ledger_version);
  CHECK(refused(other).detail == "1.0 then, 1.1 now");
}

TEST_CASE("a file that is no ledger is refused and stays as it is") {
  const TemporaryFolder folder;
  FaultList faults;
  const std::vector<std::string> files = {"hello",        "hello\n",    "\n",
                                          "kairos led\n", "PK\x03\x04", std::string(1 << 20, '\0')};
  for (const std::string& bytes : files) {
    CAPTURE(bytes);
    folder.write("ledger", bytes);
    const auto ledger = Ledger::open(folder.path(), header, faults);
    REQUIRE_FALSE(ledger.ok());
    CHECK(ledger.fault().code == Code::not_a_ledger);
    CHECK(folder.read("ledger") == bytes);
  }
  folder.write("ledger", "kairos ledger 1\n");
  CHECK(Ledger::open(folder.path(), header, faults).fault().code == Code::ledger_version);
}

TEST_CASE("reading changes nothing and needs no lock") {
  const TemporaryFolder folder;
  const SmallRun run;
  REQUIRE(resumes(folder.path(), run));
  const std::string torn = folder.read("ledger") + "1234";
  folder.write("ledger", torn);
  FaultList faults;
  const auto ledger = Ledger::read(folder / "ledger", faults);
  REQUIRE(ledger.ok());
  CHECK(run.is_whole_in(*ledger));
  CHECK(ledger->header().settings == header.settings);
  CHECK(folder.read("ledger") == torn);
  CHECK(faults.faults.size() == 1);
  CHECK(Ledger::read(folder / "absent", faults).fault().code == Code::cannot_open);
  folder.write("ledger", "kairos ledger 2\n");
  CHECK(Ledger::read(folder / "ledger", faults).fault().code == Code::ledger_unfinished);
}

TEST_CASE("games put since opening can be taken out again") {
  const TemporaryFolder folder;
  const SmallRun run;
  FaultList faults;
  REQUIRE(resumes(folder.path(), run));
  const std::string before = folder.read("ledger");
  auto ledger = Ledger::open(folder.path(), header, faults);
  const auto key = batch::key_of("third");
  REQUIRE(ledger->put_game(key, "third").ok());
  CHECK(ledger->game_text(key).value() == "third");
  REQUIRE(ledger->roll_back().ok());
  CHECK_FALSE(ledger->has_game(key));
  CHECK(folder.read("ledger") == before);
  CHECK(run.is_whole_in(*ledger));
}

TEST_CASE("a full disk is told, and the ledger stays whole up to there") {
  const TemporaryFolder folder;
  const SmallRun run;
  const pid_t child = ::fork();
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{2000, 2000};
    if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) ::_exit(2);
    FaultList faults;
    auto ledger = Ledger::open(folder.path(), header, faults);
    ::_exit(ledger.ok() && !run.put_into(*ledger) ? 0 : 1);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  REQUIRE(WIFEXITED(status));
  REQUIRE(WEXITSTATUS(status) == 0);
  CHECK(folder.read("ledger").ends_with('\n'));
  FaultList faults;
  CHECK(Ledger::open(folder.path(), header, faults).ok());
  CHECK(faults.faults.empty());
  CHECK(resumes(folder.path(), run));
}
