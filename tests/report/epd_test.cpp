// puzzles.epd, whynots.epd and puzzles.fen: what other software relies on.
#include "kairos/pgn/epd.hpp"

#include <catch2/catch.hpp>

#include "kairos/base/text.hpp"
#include "kairos/puzzle/exercise_file.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"

#include "support/report_bytes.hpp"
#include "support/report_fakes.hpp"
#include "support/temporary_folder.hpp"

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

TEST_CASE("find rates stand in c4, and in c5 how much is asked of a line that goes on") {
  test::FakeCollection collection = test::fake_collection();
  const auto all = pgn::parse_epd(lines_of(test::written("epd", collection))[1]);
  REQUIRE(all.ok());
  CHECK(all->text("c4") == "find 1600 0.40, 2000 0.62, 2400 0.70");
  CHECK(all->text("c7") == "solve 1600 0.20, 2000 0.31, 2400 0.45");
  CHECK(all->find("c5") == nullptr);
  collection.puzzles_[1].find_rates = {1, 1, 1, 1};  // 0.00 would be read as not known
  const auto hard = pgn::parse_epd(lines_of(test::written("epd", collection))[1]);
  REQUIRE(hard.ok());
  CHECK(hard->text("c4") == "find 1600 0.01, 2000 0.01, 2400 0.01");
  collection.puzzles_[1].asked = 1;
  const auto cut = pgn::parse_epd(lines_of(test::written("epd", collection))[1]);
  REQUIRE(cut.ok());
  CHECK(cut->text("c5") == "1");
  CHECK(cut->find("c7") == nullptr);
  CHECK(pgn::epd_line(*cut, "pv").value().size() == collection.puzzles_[1].line.size());
}

TEST_CASE("a line of whynots.epd has the position of the game and the move to avoid in it") {
  const test::FakeCollection collection = test::fake_collection();
  const puzzle::Puzzle& why_not = collection.why_nots().front();
  const std::string text = test::written("whynots", collection);
  REQUIRE(lines_of(text).size() == collection.why_nots().size());
  const auto epd = pgn::parse_epd(lines_of(text)[0]);
  REQUIRE(epd.ok());
  CHECK(epd->position == why_not.before);
  CHECK(pgn::epd_moves(*epd, "am").value() == std::vector<rules::Move>{why_not.avoided});
  CHECK(pgn::epd_line(*epd, "pv").ok());
  CHECK(epd->find("bm") == nullptr);
  CHECK(epd->text("id") == "g2-m6b-whynot");
  CHECK(epd->text("c3") == "Ka2 Qa8+");
  CHECK(epd->text("c4") == "find 1600 0.10, 2000 0.25, 2400 0.40");
  CHECK(epd->text("c5") == "1");
  CHECK(epd->text("c6") == "why not 6. c8=Q?");
}

TEST_CASE("what whynots.epd and puzzles.epd say comes back from them") {
  test::FakeCollection collection = test::fake_collection();
  collection.why_nots_.push_back(collection.why_nots_.front());
  collection.why_nots_.back().reward = puzzle::Reward::mate;  // the claim alone matters here
  collection.why_nots_.back().mate_moves = 2;
  const test::TemporaryFolder folder;
  for (const auto& [format, puzzles] :
       {std::pair("whynots", collection.why_nots()), std::pair("epd", collection.puzzles())}) {
    folder.write(format, test::written(format, collection));
    const auto read = puzzle::read_exercises(folder / format);
    REQUIRE(read.ok());
    REQUIRE(read->exercises.size() == puzzles.size());
    for (std::size_t i = 0; i < puzzles.size(); ++i) {
      const puzzle::Puzzle& written = puzzles[i];
      const puzzle::Exercise& exercise = read->exercises[i];
      const puzzle::Puzzle& p = exercise.puzzle;
      CAPTURE(format, i);
      CHECK(exercise.keys == std::vector<rules::Move>{written.line.front()});
      CHECK(p.position == written.position);
      CHECK(p.before == written.before);
      CHECK(p.avoided == written.avoided);
      CHECK(p.line == written.line);
      CHECK(p.asked == written.asked);
      CHECK(p.mate_moves == written.mate_moves);
      CHECK(p.reward == report::aim_of(written));
      CHECK(p.difficulty == written.difficulty);
      for (const int rating : {1600, 2000, 2400}) {
        CHECK(puzzle::rate_at(p.find_rates, rating) ==
              Approx(puzzle::rate_at(written.find_rates, rating)).margin(0.005));
        CHECK(puzzle::rate_at(p.solve_rates, rating) ==
              Approx(puzzle::rate_at(written.solve_rates, rating)).margin(0.005));
      }
      REQUIRE(p.tries.size() == written.tries.size());
      for (std::size_t k = 0; k < p.tries.size(); ++k) {
        CHECK(p.tries[k].move == written.tries[k].move);
        CHECK(p.tries[k].refutation == written.tries[k].refutation);
      }
    }
  }
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
