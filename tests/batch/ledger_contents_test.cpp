// Records with the right checksum and wrong contents: told, left out, and done again.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <limits>
#include <optional>

#include "support/forger.hpp"
#include "support/small_run.hpp"
#include "support/temporary_folder.hpp"
#include "tasks.hpp"

using namespace kairos;
using base::Code;
using base::FaultList;
using batch::Ledger;
using test::SmallRun;
using test::TemporaryFolder;

namespace {

const batch::RunHeader& header = test::small_run_header;

using Payloads = std::vector<std::string>;

// In this order: the head, two games, the input, and of each game the survey and what was found.
Payloads real_payloads() {
  const TemporaryFolder folder;
  REQUIRE(test::resumes(folder.path(), SmallRun{}));
  Payloads payloads = test::payloads_of(folder.read("ledger"));
  REQUIRE(payloads.size() == 8);
  return payloads;
}

// The first `from` replaced; it must stand there.
std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

// A whole number of that name, the first one.
std::string with_number(const std::string& payload, const std::string& name, std::int64_t number) {
  const std::string start = "\"" + name + "\":";
  const auto at = payload.find(start);
  REQUIRE(at != std::string::npos);
  const auto end = payload.find_first_of(",}", at);
  return payload.substr(0, at) + start + std::to_string(number) + payload.substr(end);
}

int missing_in(const Ledger& ledger, const SmallRun& run) {
  int missing = ledger.input() ? 0 : 1;
  for (std::size_t i = 0; i < run.texts.size(); ++i) {
    const bool game = ledger.has_game(run.key(i));  // without it no survey either
    missing += game && ledger.has_survey(run.key(i)) ? 0 : 1;
    missing += ledger.plies(run.key(i)).empty() ? 1 : 0;
  }
  return missing;
}

constexpr std::int64_t least = std::numeric_limits<int>::min();

std::string value_of(const std::string& payload, const std::string& name) {
  return *base::parse_json(payload).value().find(name)->text();
}

struct Forgery {
  std::size_t record;  // which is altered
  std::string detail;  // how it is told
  std::string payload;
};

std::vector<Forgery> forgeries(const Payloads& real) {
  const std::string key = value_of(real[4], "game"), other_key = value_of(real[6], "game");
  const std::string run = value_of(real[4], "run");
  const std::string last_code = std::to_string(base::code_count - 1);
  return {
      {0, "run: part[1] is not a whole number from 2 to 1000000",
       replaced(real[0], "[1,1]", "[2,1]")},
      {1, "game: pgn is not the text of this game", replaced(real[1], "White", "Black")},
      {2, "no JSON at byte 3", real[2].substr(0, 8)},
      {2, "it does not say what it is", replaced(real[2], "record", "Record")},
      {2, "of a kind that is not known", replaced(real[2], "\"game\"", "\"gamble\"")},
      {3, "input: games[0].file is not a whole number from 0 to 0",
       with_number(real[3], "file", 1)},
      {3, "input: games[1].number is missing", replaced(real[3], "\"number\":2", "\"numeral\":2")},
      {3, "input: games is not numbered upwards within the total",
       with_number(real[3], "number", 2)},
      {3, "input: games has a game twice", replaced(real[3], other_key, key)},
      {3, "input: faults[0].code is not a whole number from 0 to " + last_code,
       with_number(real[3], "code", base::code_count)},
      {4, "survey: candidates has a ply twice or beyond the game",
       replaced(real[4], "[[2,", "[[4,")},
      {4, "survey: candidates[1] has more than 2 elements",
       replaced(real[4], "[0,0.1]", "[0,0.1,0]")},
      {4, "survey: candidates[0][1] is not a number from 0 to 1",
       replaced(real[4], "0.3333333333333333", "1e308")},
      {4, "survey: study.notes[0].played is not a whole number from -32000 to 32000",
       with_number(real[4], "played", least)},
      {4, "survey: study.facts.white_elo is not a whole number from 0 to 9999",
       with_number(real[4], "white_elo", -1)},
      {4, "survey: of another run", replaced(real[4], run, "01234567")},
      {4, "survey: study.start is not that of the game", replaced(real[6], other_key, key)},
      {5, "moment: findings.ply is beyond the game", with_number(real[5], "ply", 99)},
      {5, "moment: findings.moments[0].ply is not that of the findings",
       with_number(real[5], "ply", 1)},
      {5, "moment: findings.moments[0].best_score is not a whole number from -32000 to 32000",
       with_number(real[5], "best_score", least)},
      {5, "moment: findings.puzzles[0].difficulty is not a whole number from 1 to 5",
       with_number(real[5], "difficulty", 0)},
  };
}

}  // namespace

TEST_CASE(
    "a record with wrong contents costs that record alone, is told by member, is done again") {
  const TemporaryFolder folder;
  const SmallRun run;
  const Payloads real = real_payloads();
  for (const Forgery& forgery : forgeries(real)) {
    CAPTURE(forgery.record, forgery.detail);
    Payloads payloads = real;
    payloads[forgery.record] = forgery.payload;
    folder.write("ledger", test::ledger_of(payloads));
    FaultList faults;
    {
      const auto ledger = Ledger::open(folder.path(), header, faults);
      REQUIRE(ledger.ok());
      CHECK(missing_in(*ledger, run) == (forgery.record == 0 ? 0 : 1));
    }
    REQUIRE(faults.faults.size() == 1);
    const base::Fault& fault = faults.faults.front();
    CHECK(fault.code == Code::ledger_damaged);
    CHECK(fault.place.file == folder / "ledger");
    CHECK(fault.place.line == forgery.record + 2);
    CHECK(fault.detail == forgery.detail);
    REQUIRE(test::resumes(folder.path(), run));
    FaultList healed;
    REQUIRE(Ledger::open(folder.path(), header, healed).ok());
    CHECK(healed.faults.empty());
  }
}

TEST_CASE("what is read of a forged ledger is the same without changing it") {
  const TemporaryFolder folder;
  const SmallRun run;
  const Payloads real = real_payloads();
  for (const Forgery& forgery : forgeries(real)) {
    if (forgery.record == 0) continue;  // there is no reading without the head
    CAPTURE(forgery.record, forgery.detail);
    Payloads payloads = real;
    payloads[forgery.record] = forgery.payload;
    const std::string bytes = test::ledger_of(payloads);
    folder.write("ledger", bytes);
    FaultList faults;
    const auto ledger = Ledger::read(folder.path(), faults);
    REQUIRE(ledger.ok());
    CHECK(missing_in(*ledger, run) == 1);
    REQUIRE(faults.faults.size() == 1);
    CHECK(faults.faults.front().detail == forgery.detail);
    CHECK(folder.read("ledger") == bytes);
  }
}

TEST_CASE("a wrong record does not hide the good one before it") {
  const TemporaryFolder folder;
  const SmallRun run;
  const Payloads real = real_payloads();
  for (const Forgery& forgery : forgeries(real)) {
    CAPTURE(forgery.record, forgery.detail);
    Payloads payloads = real;
    payloads.push_back(forgery.payload);
    folder.write("ledger", test::ledger_of(payloads));
    FaultList faults;
    const auto ledger = Ledger::read(folder.path(), faults);
    REQUIRE(ledger.ok());
    CHECK(run.is_whole_in(*ledger));
    REQUIRE(faults.faults.size() == 1);
    CHECK(faults.faults.front().place.line == real.size() + 2);
  }
}

TEST_CASE("records in any order are the same ledger") {
  const TemporaryFolder folder;
  Payloads payloads = real_payloads();
  std::reverse(payloads.begin(), payloads.end());
  folder.write("ledger", test::ledger_of(payloads));
  FaultList faults;
  const auto ledger = Ledger::read(folder.path(), faults);
  REQUIRE(ledger.ok());
  CHECK(faults.faults.empty());
  CHECK(SmallRun{}.is_whole_in(*ledger));
}

TEST_CASE("a second head that says something else is told, and the first one stands") {
  const TemporaryFolder folder;
  Payloads payloads = real_payloads();
  payloads.push_back(replaced(payloads[0], "1.0", "2.0"));
  folder.write("ledger", test::ledger_of(payloads));
  FaultList faults;
  const auto ledger = Ledger::open(folder.path(), header, faults);
  REQUIRE(ledger.ok());
  CHECK(SmallRun{}.is_whole_in(*ledger));
  REQUIRE(faults.faults.size() == 1);
  CHECK(faults.faults.front().detail == "run: of another run");
}

TEST_CASE("a ledger that is refused keeps even its damage") {
  const TemporaryFolder folder;
  Payloads payloads = real_payloads();
  payloads[4] = with_number(payloads[4], "played", least);
  const std::string bytes = test::ledger_of(payloads) + "torn";
  folder.write("ledger", bytes);
  batch::RunHeader other = header;
  other.version = "1.1";
  FaultList faults;
  CHECK(Ledger::open(folder.path(), other, faults).fault().code == Code::ledger_version);
  CHECK(folder.read("ledger") == bytes);
}

TEST_CASE("a ledger without its head is gone on with only by what made its records") {
  const TemporaryFolder folder;
  Payloads payloads = real_payloads();
  payloads.erase(payloads.begin());
  const std::string bytes = test::ledger_of(payloads);
  folder.write("ledger", bytes);
  std::vector<batch::RunHeader> others(4, header);
  others[0].settings = "survey=11 verify=20";
  others[1].version = "1.1";
  others[2].evaluation = "deadbeef";
  others[3].definitions = 4;
  FaultList faults;
  for (const batch::RunHeader& other : others) {
    CHECK(Ledger::open(folder.path(), other, faults).fault().code == Code::ledger_settings_differ);
    CHECK(folder.read("ledger") == bytes);
  }
  CHECK(test::resumes(folder.path(), SmallRun{}));
}

TEST_CASE("settings with fewer or more words than now are refused with the difference") {
  const TemporaryFolder folder;
  FaultList faults;
  const auto difference = [&](const std::string& then) {
    batch::RunHeader old = header;
    old.settings = then;
    std::filesystem::remove(folder / "ledger");
    REQUIRE(Ledger::open(folder.path(), old, faults).ok());
    const auto refused = Ledger::open(folder.path(), header, faults);
    REQUIRE_FALSE(refused.ok());
    REQUIRE(refused.fault().code == Code::ledger_settings_differ);
    return refused.fault().detail;
  };
  CHECK(difference("") == "- then, survey=10, verify=20 now");
  CHECK(difference("survey=10") == "- then, verify=20 now");
  CHECK(difference("verify=20") == "- then, survey=10 now");
  CHECK(difference("survey=10 verify=20 more=1") == "more=1 then, - now");
  CHECK(difference("survey=9 verify=20 more=1") == "survey=9, more=1 then, survey=10 now");
}

TEST_CASE("moments whose reasons could not be read again are put without them") {
  const TemporaryFolder folder;
  const SmallRun run;
  REQUIRE(test::resumes(folder.path(), run));
  FaultList faults;
  auto ledger = Ledger::open(folder.path(), header, faults);
  REQUIRE(ledger.ok());
  batch::Findings findings = run.findings[0];
  std::optional<base::Fault> refused;
  REQUIRE(batch::put_with_reasons_or_without(*ledger, run.key(0), findings, refused).ok());
  CHECK_FALSE(refused);
  study::Reason fork;  // of nothing
  fork.means = study::Means::fork;
  findings.moments[0].reasons = {fork};
  REQUIRE(batch::put_with_reasons_or_without(*ledger, run.key(0), findings, refused).ok());
  CHECK(refused);
  const auto found = ledger->findings(run.key(0), 2);
  REQUIRE(found.ok());
  findings.moments[0].reasons.clear();
  CHECK(*found == findings);
  // What is wrong beyond that is refused still.
  findings.moments[0].best_score = std::numeric_limits<int>::min();
  CHECK_FALSE(batch::put_with_reasons_or_without(*ledger, run.key(0), findings, refused).ok());
}

TEST_CASE("what could not be read again is not written") {
  const TemporaryFolder folder;
  const SmallRun run;
  REQUIRE(test::resumes(folder.path(), run));
  const std::string before = folder.read("ledger");
  FaultList faults;
  auto ledger = Ledger::open(folder.path(), header, faults);
  REQUIRE(ledger.ok());
  batch::Findings findings = run.findings[0];
  findings.moments[0].best_score = std::numeric_limits<int>::min();
  const auto put = ledger->put_findings(run.key(0), findings);
  REQUIRE_FALSE(put.ok());
  CHECK(put.fault().place.file == folder / "ledger");
  CHECK(folder.read("ledger") == before);
  CHECK(run.is_whole_in(*ledger));
}
