// puzzles.epd and puzzles.fen: what other software relies on.
#include "kairos/pgn/epd.hpp"

#include <catch2/catch.hpp>

#include "kairos/base/text.hpp"
#include "kairos/rules/fen.hpp"

#include "support/report_bytes.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;

namespace {

std::vector<std::string_view> lines_of(std::string_view text) {
  auto lines = base::split(text, '\n');
  if (!lines.empty() && lines.back().empty()) lines.pop_back();
  return lines;
}

}  // namespace

TEST_CASE("every line of puzzles.epd parses and its bm and pv are legal and agree") {
  const test::FakeCollection collection = test::fake_collection();
  const std::string text = test::written("epd", collection);
  const auto lines = lines_of(text);
  REQUIRE(lines.size() == collection.puzzles().size());
  for (std::size_t i = 0; i < lines.size(); ++i) {
    CAPTURE(std::string(lines[i]));
    const auto epd = pgn::parse_epd(lines[i]);
    REQUIRE(epd.ok());
    const auto best = pgn::epd_moves(*epd, "bm"), line = pgn::epd_line(*epd, "pv");
    REQUIRE(best.ok());
    REQUIRE(line.ok());
    const puzzle::Puzzle& puzzle = collection.puzzles()[i];
    CHECK(best->size() == 1);
    CHECK(best->front() == puzzle.line.front());
    CHECK(*line == puzzle.line);
    CHECK(epd->position == puzzle.position);
    CHECK(epd->text("id") == puzzle::id_of(puzzle));
    CHECK(epd->text("c2") == std::to_string(puzzle.difficulty));
  }
}

TEST_CASE("dm is claimed only with a proof (PGN standard 16.2.5)") {
  test::FakeCollection collection = test::fake_collection();
  const auto epd = pgn::parse_epd(lines_of(test::written("epd", collection))[0]);
  REQUIRE(epd.ok());
  CHECK(epd->text("dm") == "2");
  // A mate that the search saw and nobody proved is no claim.
  collection.puzzles_[0].mate_moves = 0;
  const auto unproved = pgn::parse_epd(lines_of(test::written("epd", collection))[0]);
  REQUIRE(unproved.ok());
  CHECK(unproved->find("dm") == nullptr);
}

TEST_CASE("tries stand in c3 as lines in SAN, themes in c1") {
  const std::string text = test::written("epd", test::fake_collection());
  const auto epd = pgn::parse_epd(lines_of(text)[0]);
  REQUIRE(epd.ok());
  CHECK(epd->text("c3") == "Kxd1 dxe5 Bxf7+ Kxf7; Nxd1 dxe5");
  CHECK(epd->text("c1") == "mate in 2, sacrifice");
}

TEST_CASE("hostile names leave an EPD line one line whose operations can be read") {
  test::FakeCollection collection = test::fake_collection();
  for (const std::string name :
       {"a \" bm Qh5; pv ", "line\nbreak\r\x01", "\xFF\xFE latin", ";;;", "\xC3\xA9\xE2\x82\xAC"}) {
    collection.puzzles_[0].game_label = name;
    const std::string text = test::written("epd", collection);
    CAPTURE(text);
    REQUIRE(lines_of(text).size() == 2);
    CHECK(base::is_valid_utf8(text));
    const auto epd = pgn::parse_epd(lines_of(text)[0]);
    REQUIRE(epd.ok());
    CHECK(epd->text("bm") == "Bxf7+");
    CHECK(pgn::epd_line(*epd, "pv").ok());
  }
}

TEST_CASE("puzzles.fen holds the positions with their counters (PGN standard 16.1)") {
  const test::FakeCollection collection = test::fake_collection();
  const std::string text = test::written("fen", collection);
  const auto lines = lines_of(text);
  REQUIRE(lines.size() == collection.puzzles().size());
  for (std::size_t i = 0; i < lines.size(); ++i) {
    CHECK(base::fields(lines[i]).size() == 6);
    const auto position = rules::parse_fen(lines[i]);
    REQUIRE(position.ok());
    CHECK(*position == collection.puzzles()[i].position);
  }
}
