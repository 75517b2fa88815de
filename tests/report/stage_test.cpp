// stage.html: what it asks, that nothing of an answer is seen before it is asked for, and that the
// positions its script draws are those of its moves. What the script does is checked outside, in a
// browser, by scripts/check_pages.
#include <catch2/catch.hpp>
#include <set>

#include "kairos/base/text.hpp"
#include "kairos/report/turning_points.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "support/markup.hpp"
#include "support/page_steps.hpp"
#include "support/report_bytes.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;
using test::between;

namespace {

std::vector<std::string> pieces(const std::string& html, std::string_view begin,
                                std::string_view end) {
  std::vector<std::string> all;
  for (std::size_t at = 0; (at = html.find(begin, at)) != std::string::npos; ++at) {
    all.push_back(between(html, begin, end, at));
  }
  return all;
}

std::vector<std::string> questions_of(const test::FakeCollection& collection) {
  return pieces(test::written("stage", collection), "<section class=\"question", "</section>");
}

// Steps through a line of the page from `position`: every step must change on the board what the
// legal move does that its text names.
void check_line(rules::Position position, const std::string& line) {
  const auto steps_text = between(line, "data-moves=\"", "\"");
  const auto steps = base::fields(steps_text);
  const auto moves = pieces(line, "<span class=\"ply\">", "</span>");
  REQUIRE(steps.size() == moves.size());
  for (std::size_t i = 0; i < steps.size(); ++i) {
    CAPTURE(moves[i], std::string(steps[i]));
    test::Men men = test::men_of(position);
    const auto move = rules::parse_san(position, base::fields(moves[i]).back());
    REQUIRE(move.ok());
    position.play(*move);
    CHECK(test::stepped(men, steps[i]) == test::men_of(position));
  }
}

}  // namespace

TEST_CASE("every position of the stage is reached by the legal moves it names") {
  std::size_t lines = 0;
  for (const std::string& question : questions_of(test::fake_collection())) {
    const auto position = rules::parse_fen(between(question, "<code>", "</code>"));
    REQUIRE(position.ok());
    CHECK(between(question, "data-start=\"", "\"") ==
          rules::to_fen(*position).substr(0, rules::to_fen(*position).find(' ')));
    CHECK(between(question, "data-side=\"", "\"") ==
          (position->side_to_move() == rules::white ? "w" : "b"));
    for (const std::string& line : pieces(question, "<li class=", "</li>")) {
      check_line(*position, line);
      ++lines;
    }
  }
  CHECK(lines >= 12);
}

TEST_CASE("the stage asks each puzzle, each why-not and each other turning point once") {
  const test::FakeCollection collection = test::fake_collection();
  std::vector<std::string> ids;
  for (const std::string& question : questions_of(collection)) {
    ids.push_back(between(question, "id=\"", "\""));
  }
  // Puzzles first, so that their numbers are those of questions.html. The points of the first two
  // games at which they were made are not asked again, that of the swing before the mate is.
  CHECK(ids == std::vector<std::string>{"g1-m6w", "g2-m6w", "g2-m6b-whynot", "g1-p9", "g3-p12",
                                        "g3-p13", "g3-p14"});
  std::size_t points = 0;
  for (const study::Study& study : collection.studies) {
    points += report::turning_points(study).size();
  }
  CHECK(ids.size() == collection.puzzles_.size() + collection.why_nots_.size() + points - 2);
}

TEST_CASE("a turning point without a puzzle is asked, also a trap without its why-not") {
  test::FakeCollection collection = test::fake_collection();
  collection.puzzles_.clear();
  collection.why_nots_.clear();
  std::erase_if(collection.studies[1].moments,
                [](const auto& m) { return m.kind != study::Kind::trap; });
  const auto questions = questions_of(collection);
  REQUIRE(questions.size() == 6);
  const std::string& trap = questions[2];
  CHECK(trap.find("White to move: may White play 6. c8=Q?") != std::string::npos);
  CHECK(between(trap, "data-avoided=\"", "\"") == "c7c8");
  for (const std::size_t other : {0U, 1U, 3U, 4U, 5U}) {
    CHECK(between(questions[other], "data-avoided=\"", "\"").empty());
  }
}

TEST_CASE(
    "the stage shows no answer, in words, in marks or to a screen reader, before it is asked") {
  const auto questions = questions_of(test::fake_collection());
  const auto hidden = [&](std::size_t number, std::initializer_list<std::string_view> answers) {
    const std::string whole = "<section" + questions.at(number - 1);
    const std::string seen = test::unfolded(whole);
    CHECK(seen.find("to move. White: king") != std::string::npos);
    CHECK(seen.find("data-moves") == std::string::npos);
    for (const std::string_view mark : {"better", "played", "ringed"}) {
      CHECK(seen.find("class=\"" + std::string(mark)) == std::string::npos);
    }
    for (const std::string_view answer : answers) {
      CAPTURE(number, std::string(answer));
      CHECK(whole.find(answer) != std::string::npos);
      CHECK(seen.find(answer) == std::string::npos);
    }
  };
  hidden(1, {"Bxf7", "sacrifice", "Kxd1", "players rated", "Something has to be given up"});
  hidden(2, {"c8=R", "c8=Q", "Ra4", "promotion", "players rated"});
  hidden(3, {"Rc4", "Ka2", "stalemate", "a move of a rook"});
  hidden(4, {"dxe5", "Bxd1", "swing", "mates in 2", "players rated"});
  hidden(5, {"7. f3", "quiet"});
}

TEST_CASE("the speaker's notes say how many find it, the tries with what refutes them, and why") {
  const auto questions = questions_of(test::fake_collection());
  const std::string& puzzle = questions.at(0);
  for (const std::string_view part :
       {"Expected: about 6 in 10 players rated 2000 find both moves", "Themes: mate in 2",
        "It was played in the game.", "<span class=\"ply\">6. Kxd1</span>",
        "<span class=\"ply\">dxe5</span>", "White mates in 2"}) {
    CAPTURE(std::string(part));
    CHECK(puzzle.find(part) != std::string::npos);
  }
  const std::string& point = questions.at(3);
  CHECK(point.find("Expected: about 3 in 10 players rated 2000 find it.") != std::string::npos);
  CHECK(point.find("In the game: swing, punished.") != std::string::npos);
  // The answer stands before what was played.
  CHECK(point.find("<li class=\"right\"") < point.find("<li class=\"wrong\""));
}
