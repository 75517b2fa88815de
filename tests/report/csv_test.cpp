// moments.csv against RFC 4180, read by a small parser that follows its grammar (section 2).
#include <catch2/catch.hpp>

#include "support/report_bytes.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;

namespace {

using Record = std::vector<std::string>;

// Strict: CRLF ends records, quotes stand only around whole fields and are doubled inside.
std::vector<Record> records_of(std::string_view text) {
  std::vector<Record> records;
  std::size_t at = 0;
  while (at < text.size()) {
    Record record;
    for (;;) {
      std::string field;
      if (at < text.size() && text[at] == '"') {
        for (++at;; ++at) {
          REQUIRE(at < text.size());
          if (text[at] != '"') {
            field += text[at];
          } else if (at + 1 < text.size() && text[at + 1] == '"') {
            field += text[at++];
          } else {
            break;
          }
        }
        ++at;
      } else {
        while (at < text.size() && text[at] != ',' && text[at] != '\r') {
          REQUIRE(text[at] != '"');
          REQUIRE(text[at] != '\n');
          field += text[at++];
        }
      }
      record.push_back(field);
      REQUIRE(at < text.size());
      if (text[at] != ',') break;
      ++at;
    }
    REQUIRE(text.substr(at, 2) == "\r\n");
    at += 2;
    records.push_back(record);
  }
  return records;
}

std::string field_of(const std::vector<Record>& records, std::size_t row, std::string_view name) {
  for (std::size_t i = 0; i < records[0].size(); ++i) {
    if (records[0][i] == name) return records[row][i];
  }
  FAIL("no column " << name);
  return "";
}

}  // namespace

TEST_CASE("moments.csv is one record a moment, all of the header's length") {
  const test::FakeCollection collection = test::fake_collection();
  const auto records = records_of(test::written("csv", collection));
  std::size_t moments = 0;
  for (const study::Study& study : collection.studies) moments += study.moments.size();
  REQUIRE(records.size() == moments + 1);
  for (const Record& record : records) CHECK(record.size() == records[0].size());
  CHECK(field_of(records, 1, "kind") == "swing");
  CHECK(field_of(records, 1, "line") == "dxe5 Qxg4 Nf6 Qe2 Nc6");
  CHECK(field_of(records, 1, "cost") == "0.1869");
  const std::string ply = field_of(records, 1, "ply");
  CHECK(field_of(records, 1, "clock") ==
        std::to_string(5400 - std::stoi(ply) * std::stoi(ply) * 20));
}

TEST_CASE("quotes, commas and line ends in names come back (RFC 4180, section 2, rules 5 to 7)") {
  test::FakeCollection collection = test::fake_collection();
  const auto records = records_of(test::written("csv", collection));
  CHECK(field_of(records, 1, "white") == collection.studies[0].facts.white);
  CHECK(field_of(records, 1, "file") == "games/club, open.pgn");
  collection.studies[0].facts.white = "two\r\nlines, \"quoted\"";
  const auto hostile = records_of(test::written("csv", collection));
  CHECK(hostile.size() == records.size());
  CHECK(field_of(hostile, 1, "white") == "two  lines, \"quoted\"");
}

TEST_CASE("a name that a spreadsheet would take for a formula is made text") {
  test::FakeCollection collection = test::fake_collection();
  for (const std::string name : {"=1+1", "+A1", "-A1", "@SUM(A1)"}) {
    collection.studies[0].facts.white = name;
    const auto records = records_of(test::written("csv", collection));
    CHECK(field_of(records, 1, "white") == "'" + name);
    CHECK(field_of(records, 1, "score") == "-150");  // numbers stay numbers
  }
}
