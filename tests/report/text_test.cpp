// report.txt: what a reader at a terminal may count on.
#include "kairos/base/text.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "kairos/rules/fen.hpp"

#include "support/report_bytes.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;

namespace {

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("no line of report.txt is wider than 80 characters or ends in blanks") {
  test::FakeCollection collection = test::fake_collection();
  collection.studies[0].facts.white = std::string(300, 'W');
  collection.studies[0].facts.event = "\xC5\xBD\xC5\xBD " + std::string(150, 'e');
  const std::string text = test::written("text", collection);
  for (const std::string_view line : base::split(text, '\n')) {
    CAPTURE(std::string(line));
    CHECK(base::character_count(line) <= 80);
    CHECK((line.empty() || line.back() != ' '));
  }
}

TEST_CASE("report.txt holds no control characters, whatever the names hold") {
  test::FakeCollection collection = test::fake_collection();
  collection.studies[0].facts.white = "esc \x1B[31m bell \x07";
  collection.puzzles_[0].game_label = "\x1B[2J";
  collection.facts_.faults[0].detail = "\x1B[2J";
  for (const char c : test::written("text", collection)) {
    CHECK((c == '\n' || (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F)));
  }
}

TEST_CASE("report.txt says what was read, skipped and left undone") {
  const std::string text = test::written("text", test::fake_collection());
  CHECK(has(text, "5 games in the input: 4 read, 1 skipped."));
  CHECK(has(text, "games/club, open.pgn:48:9: game 5: illegal move: Kxe9"));
  CHECK(has(text, "NOT DONE: 7 places"));
  CHECK(has(text, "article 11.3"));
  test::FakeCollection finished = test::fake_collection();
  finished.facts_.candidates_open = 0;
  CHECK(!has(test::written("text", finished), "NOT DONE"));
}

TEST_CASE("no solution stands before the section of solutions") {
  const std::string text = test::written("text", test::fake_collection());
  const auto puzzles = text.find("THE PUZZLES"), solutions = text.find("SOLUTIONS");
  REQUIRE(puzzles != std::string::npos);
  REQUIRE(solutions != std::string::npos);
  const auto why_nots = text.find("WHY NOT");
  REQUIRE(why_nots < solutions);
  const std::string questions = text.substr(puzzles, why_nots - puzzles);
  CHECK(!has(questions, "Bxf7"));
  CHECK(!has(questions, "c8="));
  CHECK(has(questions, "g1-m6w"));
  const std::string others = text.substr(why_nots, solutions - why_nots);
  CHECK(has(others, "1. White to move. Why not 6. c8=Q?"));
  CHECK(has(others, "8/2P5/8/8/3r4/8/2K5/k7 w - - 9 6"));  // of the game
  CHECK(!has(others, "Rc4"));
  CHECK(!has(others, "c8=R"));
  CHECK(has(text.substr(solutions), "6... Rc4+ (then, for instance, 7. Kd3 Rxc8)"));
  CHECK(has(text.substr(solutions), "6. c8=Q was not played."));
  CHECK(has(text.substr(solutions), "6. Bxf7+ Ke7 7. Nd5#"));
  CHECK(has(text.substr(solutions), "6. c8=Q Rc4+ 7. Qxc4"));
}

TEST_CASE("diagrams are seen from the side to move") {
  const std::string text = test::written("text", test::fake_collection());
  // Before 5... Bxd1: Black to move, so the h-file is at the left and White's men on top.
  CHECK(has(text, "  1 | R .   K Q B   R |"));
  CHECK(has(text, "  8 | r n b k q   n r |"));
  CHECK(has(text, "      h g f e d c b a"));
  CHECK(has(text, "      a b c d e f g h"));
}

TEST_CASE("scores are shown from White's side") {
  const std::string text = test::written("text", test::fake_collection());
  // Black to move, best_score -150: White is a pawn and a half up.
  CHECK(has(text, "5... dxe5 6. Qxg4 Nf6 7. Qe2 Nc6 (+1.50)"));
  const auto mate = text.find("5... Bxd1 6. Bxf7+ Ke7 7. Nd5# (White mates\n");
  REQUIRE(mate != std::string::npos);
  const std::string next = text.substr(text.find('\n', mate) + 1);
  CHECK(next.substr(0, next.find('\n')).ends_with("in 2)"));
}

TEST_CASE("the decisive move is the one that cost most; claims do not decide a game") {
  const std::string text = test::written("text", test::fake_collection());
  CHECK(has(text, "5... Bxd1, 19 % -> 0 %"));
  CHECK(has(text, "7... Be6, 60 % -> 7 %"));
}

TEST_CASE("a trap that nobody walked into decides no game") {
  test::FakeCollection collection = test::fake_collection();
  for (study::Study& study : collection.studies) {
    std::erase_if(study.moments, [](const auto& m) { return m.kind != study::Kind::trap; });
  }
  const std::string text = test::written("text", collection);
  const std::string games = text.substr(0, text.find("\nGame 1."));
  CHECK(!has(games, ", trap"));
}

TEST_CASE("a single game is told on two pages, however much there is to tell") {
  test::FakeCollection collection = test::fake_collection();
  collection.facts_.candidates_open = 0;
  collection.facts_.faults.clear();
  collection.studies.resize(1);
  collection.games.resize(1);
  study::Study& study = collection.studies[0];
  const study::Moment swing = study.moments[0];
  for (int ply = 1; ply < 13; ++ply) {  // the same at each half-move; only the place counts here
    study.moments.push_back(swing);
    study.moments.back().ply = ply;
  }
  std::sort(study.moments.begin(), study.moments.end(),
            [](const auto& a, const auto& b) { return a.ply < b.ply; });
  const std::string text = test::written("text", collection);
  CHECK(std::count(text.begin(), text.end(), '\n') <= 120);
  CHECK(has(text, "Also:"));
  CHECK(!has(text, "SOLUTIONS"));
}

TEST_CASE("an empty run says so") {
  const std::string text = test::written("text", test::empty_collection());
  CHECK(has(text, "0 games in the input: 0 read, 0 skipped."));
  CHECK(has(text, "None was found."));
  CHECK(!has(text, "SOLUTIONS"));
}
