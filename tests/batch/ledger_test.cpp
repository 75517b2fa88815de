// The ledger's promises: what was written is there again, however the file was hurt.
#include "kairos/batch/ledger.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <csignal>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "support/small_run.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using base::Code;
using base::FaultList;
using batch::Ledger;
using test::lines_with_ends;
using test::resumes;
using test::SmallRun;
using test::TemporaryFolder;

namespace {

const batch::RunHeader& header = test::small_run_header;

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
  const auto lines = lines_with_ends(folder.read("ledger"));
  REQUIRE(lines.size() == 9);
  CHECK(lines[0] == "kairos ledger 2\n");
  CHECK(lines[1].substr(8) ==
        " {\"record\":\"run\",\"version\":\"1.0\",\"evaluation\":\"0a1b2c3d\",\"definitions\":3,"
        "\"settings\":\"survey=10 verify=20\","
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
    if (lines_with_ends(kept).size() >= 2 && !torn) REQUIRE(folder.read("ledger") == bytes);
  }
}

TEST_CASE("a damaged line anywhere costs that record alone, is told once, and is done again") {
  const TemporaryFolder whole, folder;
  const SmallRun run;
  REQUIRE(resumes(whole.path(), run));
  const auto lines = lines_with_ends(whole.read("ledger"));
  for (std::size_t damaged = 0; damaged < lines.size(); ++damaged) {
    // The digit of the first line is left alone: another one is another version.
    const std::size_t last = lines[damaged].size() - (damaged == 0 ? 1 : 2);
    for (const std::size_t at : {std::size_t{0}, std::size_t{8}, std::size_t{12}, last}) {
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
          const bool game = ledger->has_game(run.key(i));  // without it no survey either
          missing += game && ledger->has_survey(run.key(i)) ? 0 : 1;
          missing += ledger->plies(run.key(i)).empty() ? 1 : 0;
        }
        missing += ledger->input() ? 0 : 1;
        REQUIRE(missing == (damaged <= 1 ? 0 : 1));
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

TEST_CASE("a ledger whose start was written over is a damaged ledger, not another file") {
  const TemporaryFolder folder;
  const SmallRun run;
  REQUIRE(resumes(folder.path(), run));
  const std::string bytes = folder.read("ledger");
  const auto second = bytes.find('\n') + 1, third = bytes.find('\n', second) + 1;
  const std::string lost = "warning: a message";
  for (const std::string& hurt : {lost + bytes.substr(lost.size()), lost + "\n" + bytes,
                                  bytes.substr(second), bytes.substr(third), "\n" + bytes}) {
    CAPTURE(hurt.substr(0, 40));
    folder.write("ledger", hurt);
    FaultList told;
    const auto ledger = Ledger::open(folder.path(), header, told);
    REQUIRE(ledger.ok());
    for (const auto& fault : told.faults) CHECK(fault.code == Code::ledger_damaged);
    CHECK(run.is_whole_in(*ledger));
    CHECK(folder.read("ledger").starts_with("kairos ledger 2\n"));
  }
}

TEST_CASE("a ledger that becomes shorter while it is open is named when it cannot be read") {
  const TemporaryFolder folder;
  const SmallRun run;
  FaultList faults;
  REQUIRE(resumes(folder.path(), run));
  auto ledger = Ledger::open(folder.path(), header, faults);
  REQUIRE(ledger.ok());
  REQUIRE(::truncate((folder / "ledger").c_str(), 100) == 0);
  const std::string begin = folder / "ledger" + ":";
  // Gone; and, when more is written behind it, nothing but zeros.
  for (const bool more : {false, true}) {
    if (more) REQUIRE(ledger->put_game(batch::key_of("third\n"), "third\n").ok());
    const auto survey = ledger->survey(run.key(1));
    REQUIRE_FALSE(survey.ok());
    CHECK(survey.fault().code == Code::ledger_damaged);
    CHECK(base::describe(survey.fault()).starts_with(begin));
  }
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
  auto ledger = Ledger::open(folder.path(), header, faults);
  REQUIRE(ledger.ok());
  CHECK(faults.faults.size() == 1);
  CHECK_FALSE(ledger->has_game(run.key(0)));
  CHECK_FALSE(ledger->has_game(run.key(1)));
  CHECK_FALSE(ledger->has_survey(run.key(0)));
  REQUIRE(ledger->put_game(run.key(0), run.texts[0]).ok());
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

TEST_CASE(
    "what another kairos made, other settings and another part are refused with the difference") {
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
  other = header;
  other.evaluation = "deadbeef";
  CHECK(refused(other).code == Code::ledger_evaluation);
  CHECK(refused(other).detail == "evaluation 0a1b2c3d, not deadbeef");
  other = header;
  other.definitions = 4;
  CHECK(refused(other).code == Code::ledger_evaluation);
  CHECK(refused(other).detail == "definitions 3, not 4");
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

TEST_CASE("a line longer than any record is damage, and what stands around it is kept") {
  const TemporaryFolder folder;
  const SmallRun run;
  REQUIRE(resumes(folder.path(), run));
  const std::string whole = folder.read("ledger");
  // 70 MB without a line feed, before the last record and at the end.
  const std::string endless(70'000'000, 'x');
  const auto last = whole.rfind('\n', whole.size() - 2) + 1;
  folder.write("ledger", whole.substr(0, last) + endless + "\n" + whole.substr(last) + endless);
  FaultList faults;
  const auto ledger = Ledger::read(folder.path(), faults);
  REQUIRE(ledger.ok());
  CHECK(run.is_whole_in(*ledger));
  REQUIRE(faults.faults.size() == 2);
  CHECK(faults.faults[0].code == Code::ledger_damaged);
  CHECK(faults.faults[1].code == Code::ledger_torn_tail);
}
